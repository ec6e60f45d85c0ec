import {
  mostOctaves,
  partId,
  type PartId,
  type ReadFile,
  type ScoreSource,
  type SoundingChoice,
} from '../music/index.ts';
import { textOption, wholeIn, wordIn, type Given } from './command.ts';
import { WrongUse } from './failures.ts';
import { listed } from './say.ts';

const capoWords = ['shapes', 'sounding'] as const;

/** What an option says of all parts, and of some by their ids. */
interface ForParts<Value> {
  readonly all: Value | null;
  readonly ofParts: ReadonlyMap<PartId, Value>;
}

/** Values with commas between: `VALUE` for all parts, `PART:VALUE` for one. */
function forParts<Value>(given: Given, name: string, valueIn: (text: string) => Value): ForParts<Value> {
  let all: Value | null = null;
  const ofParts = new Map<PartId, Value>();
  for (const item of textOption(given, name)?.split(',') ?? []) {
    const colon = item.indexOf(':');
    const value = valueIn(item.slice(colon + 1).trim());
    if (colon < 0) all = value;
    else ofParts.set(partId(item.slice(0, colon).trim()), value);
  }
  return { all, ofParts };
}

/** What the command line says of the octave and the capo of parts with frets. */
export type SoundingWish = Pick<ScoreSource, 'octave' | 'capo'> & {
  readonly ofParts: ReadonlyMap<PartId, SoundingChoice>;
};

/** **Errors** `WrongUse`. */
export function soundingWish(given: Given): SoundingWish {
  const octave = forParts(given, 'octave', (text) => wholeIn(text, 'octave', -mostOctaves, mostOctaves));
  const capo = forParts(given, 'capo', (text) => wordIn(text, 'capo', capoWords));
  const named = new Set([...octave.ofParts.keys(), ...capo.ofParts.keys()]);
  const own = (part: PartId): SoundingChoice => ({
    octave: octave.ofParts.get(part) ?? null,
    capo: capo.ofParts.get(part) ?? null,
  });
  return {
    octave: octave.all ?? undefined,
    capo: capo.all ?? undefined,
    ofParts: new Map([...named].map((part) => [part, own(part)])),
  };
}

/** A part that is named must have something to choose. **Errors** `WrongUse`. */
export function refuseUnknownParts({ ofParts }: SoundingWish, { sounding }: ReadFile): void {
  for (const [part, { octave, capo }] of ofParts) {
    const option = octave === null ? 'capo' : 'octave';
    const own = sounding.find((one) => one.part === part);
    if (own === undefined) {
      const open =
        sounding.length === 0 ? 'for no part of this file' : `for ${listed(sounding.map((one) => one.part))}`;
      throw new WrongUse(`--${option}: there is nothing to choose for part ${part}; there is ${open}.`);
    }
    if (capo !== null && own.capo === null) throw new WrongUse(`--capo: part ${part} has no capo.`);
  }
}
