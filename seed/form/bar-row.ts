import { keyOfText } from './pitch-text.ts';
import { meterOfText } from './heading.ts';
import type { PieceBar, PieceProblem } from './piece.ts';

/** What a `bar` row says; onset and length follow from the rows under it. */
export type BarWords = Omit<PieceBar, 'ordinal' | 'onsetTicks' | 'lengthTicks'>;

type Draft = { -readonly [Field in keyof BarWords]: BarWords[Field] };

interface BarWord {
  readonly pattern: RegExp;
  readonly take: (draft: Draft, argument: string) => boolean;
}

const barWords: readonly BarWord[] = [
  { pattern: /^pickup$/, take: (draft) => ((draft.isPickup = true), true) },
  { pattern: /^repeat-start$/, take: (draft) => ((draft.startsRepeat = true), true) },
  { pattern: /^repeat-end$/, take: (draft) => ((draft.endsRepeat = true), true) },
  { pattern: /^mark=(\S{1,3})$/, take: (draft, mark) => ((draft.rehearsalMark = mark), true) },
  { pattern: /^ending=([1-9])$/, take: (draft, pass) => ((draft.ending = Number(pass)), true) },
  { pattern: /^tempo=(\d{2,3})$/, take: (draft, tempo) => ((draft.quartersPerMinute = Number(tempo)), true) },
  { pattern: /^key=(\S+)$/, take: takeKey },
  { pattern: /^meter=(\S+)$/, take: takeMeter },
];

function takeKey(draft: Draft, text: string): boolean {
  const key = keyOfText(text.replace('-', ' '));
  if (key !== null) draft.key = key;
  return key !== null;
}

function takeMeter(draft: Draft, text: string): boolean {
  const meter = meterOfText(text);
  if (meter !== null) draft.meter = meter;
  return meter !== null;
}

/** What a `bar` row says, with key and meter carried on from the bar before where it is silent. */
export function readBarRow(
  text: string,
  lineNumber: number,
  before: Pick<PieceBar, 'key' | 'meter'>,
  problems: PieceProblem[],
): BarWords {
  const [, label, ...words] = [...text.matchAll(/\S+/g)];
  const draft: Draft = {
    label: label?.[0] ?? '',
    isPickup: false,
    meter: before.meter,
    key: before.key,
    rehearsalMark: null,
    startsRepeat: false,
    endsRepeat: false,
    ending: null,
    quartersPerMinute: null,
  };
  if (label === undefined) problems.push({ lineNumber, column: 1, detail: 'a bar needs its printed number: bar 12' });
  for (const word of words) {
    const known = barWords.find(({ pattern }) => pattern.test(word[0]));
    const argument = known?.pattern.exec(word[0])?.[1] ?? '';
    if (known?.take(draft, argument) !== true)
      problems.push({ lineNumber, column: word.index + 1, detail: `"${word[0]}" says nothing about a bar` });
  }
  return draft;
}
