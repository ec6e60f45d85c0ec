import { midiOf } from '../../basis/pitch.ts';
import type { HitKind } from '../../score/score.ts';
import { firstHead, isHit, type Chain } from './chains.ts';
import type { RawPart } from './raw-part.ts';

/** A hit as it is told from its head, its words and its company. */
export interface HeardHit {
  readonly hit: HitKind;
  readonly isCertain: boolean;
}

/** Words that tell what is hit, tried in order. **Source** common practice, no source. */
const kindsByWords: readonly (readonly [RegExp, HitKind])[] = [
  [/dead|mute|ghost|chuck/i, 'deadNote'],
  [/slap|string/i, 'stringSlap'],
  [/high|snare|side|rim|nail|finger|knuckle|click|clap|upper/i, 'highBody'],
  [/low|bass|kick|thumb|palm|heel|thump|lower/i, 'lowBody'],
];

const kindByWords = (text: string): HitKind | null => kindsByWords.find(([pattern]) => pattern.test(text))?.[1] ?? null;

/** The middle of a treble staff: B4. */
const middleMidi = 71;
const slapMidi = 76;

function kindByHeight(chain: Chain): HitKind {
  const head = firstHead(chain);
  const drawn = head.pitch ?? head.display;
  if (drawn === null) return 'stringSlap';
  const midi = midiOf(drawn);
  if (midi < middleMidi) return 'lowBody';
  return midi < slapMidi ? 'highBody' : 'stringSlap';
}

/** The words printed at the moment of each head, looked up by bar and offset. */
export class WordsByMoment {
  private readonly texts = new Map<string, string>();

  constructor(parts: readonly RawPart[]) {
    for (const { words } of parts) {
      for (const { barIndex, offsetTicks, text } of words) {
        const key = `${barIndex} ${offsetTicks}`;
        this.texts.set(key, `${this.texts.get(key) ?? ''} ${text}`);
      }
    }
  }

  at(chain: Chain): string {
    const { barIndex, offsetTicks } = firstHead(chain);
    return this.texts.get(`${barIndex} ${offsetTicks}`) ?? '';
  }
}

const drawnMidi = (chain: Chain): number => {
  const head = firstHead(chain);
  const drawn = head.pitch ?? head.display;
  return drawn === null ? 0 : midiOf(drawn);
};

/** Whether a hit stands within a strum: in the voice of two or more pitched heads struck with it, and on a string or between them. */
function isWithinStrum(chain: Chain, company: readonly Chain[], string: number | null): boolean {
  const voice = chain.voices[0]?.voice;
  const pitched = company.filter((other) => !isHit(firstHead(other)) && other.staff === chain.staff && other.voices[0]?.voice === voice);
  if (pitched.length < 2) return false;
  if (string !== null) return true;
  const heights = pitched.map(drawnMidi);
  const height = drawnMidi(chain);
  return height > Math.min(...heights) && height < Math.max(...heights);
}

/** What a hit is: by its instrument's name and its words, else by its company, else by where it is drawn. */
export function hitOf(chain: Chain, company: readonly Chain[], words: WordsByMoment, copies: readonly Chain[]): HeardHit {
  const head = firstHead(chain);
  const string = head.fingerboard?.string ?? copies.map((copy) => firstHead(copy).fingerboard?.string)[0] ?? null;
  if (isWithinStrum(chain, company, string)) return { hit: 'deadNote', isCertain: false };
  const instrument = head.instrument === null ? '' : (chain.part.instrumentNames.get(head.instrument) ?? '');
  const named = kindByWords(`${head.words} ${words.at(chain)}`) ?? kindByWords(/guit/i.test(instrument) ? '' : instrument);
  return { hit: named ?? kindByHeight(chain), isCertain: true };
}
