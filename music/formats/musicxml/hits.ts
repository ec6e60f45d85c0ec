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

/** Where a hit's head stands on a treble staff of five lines. **Units** MIDI note numbers; 67 is the second line, 71 the third. */
const lowBelowMidi = 67;
const highAboveMidi = 71;

/** The height at which a head is drawn: an octave above its pitch under a clef with an 8 below. */
function drawnMidi(chain: Chain): number | null {
  const { pitch, display } = firstHead(chain);
  if (pitch !== null) return midiOf(pitch) - 12 * chain.part.clefOctave;
  return display === null ? null : midiOf(display);
}

function kindByHeight(chain: Chain): HitKind {
  const midi = drawnMidi(chain);
  if (midi === null) return 'stringSlap';
  if (midi < lowBelowMidi) return 'lowBody';
  return midi > highAboveMidi ? 'highBody' : 'stringSlap';
}

/** What is hit where only a string is told: the hand strikes low over the low strings and high over the high ones. **Source** common practice, no source. */
function kindByString(string: number): HitKind {
  if (string >= 5) return 'lowBody';
  return string >= 3 ? 'stringSlap' : 'highBody';
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

/** Whether a hit stands within a strum: in the voice of two or more pitched heads struck with it, and on a string or between them. */
function isWithinStrum(chain: Chain, company: readonly Chain[], string: number | null): boolean {
  const voice = chain.voices[0]?.voice;
  const pitched = company.filter(
    (other) => !isHit(firstHead(other)) && other.staff === chain.staff && other.voices[0]?.voice === voice,
  );
  if (pitched.length < 2) return false;
  if (string !== null) return true;
  const heights = pitched.map((other) => drawnMidi(other) ?? 0);
  const height = drawnMidi(chain) ?? 0;
  return height > Math.min(...heights) && height < Math.max(...heights);
}

/** The name of the instrument that a hit is given to, unless it is the guitar itself. */
function instrumentOf(chain: Chain): string {
  const { instrument } = firstHead(chain);
  const name = instrument === null ? '' : (chain.part.instrumentNames.get(instrument) ?? '');
  return /guit/i.test(name) ? '' : name;
}

/** What a hit is: by its instrument's name, else by its company, its words, its string, or where it is drawn. */
export function hitOf(
  chain: Chain,
  company: readonly Chain[],
  words: WordsByMoment,
  copies: readonly Chain[],
): HeardHit {
  const head = firstHead(chain);
  if (head.isRhythmSlash) return { hit: 'deadNote', isCertain: false };
  const named = kindByWords(instrumentOf(chain));
  if (named !== null) return { hit: named, isCertain: true };
  const string = head.fingerboard?.string ?? copies.map((copy) => firstHead(copy).fingerboard?.string)[0] ?? null;
  if (isWithinStrum(chain, company, string)) return { hit: 'deadNote', isCertain: false };
  const told = kindByWords(`${head.words} ${words.at(chain)}`);
  return { hit: told ?? (string === null ? kindByHeight(chain) : kindByString(string)), isCertain: true };
}
