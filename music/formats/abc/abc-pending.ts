import type { AbcAnnotation, AbcEvent, AbcGrace } from './abc-events.ts';
import { isAtBarEnd, isDirection } from './abc-marks.ts';
import { plainText } from './abc-text.ts';

/** What stands before the note that it belongs to. */
export interface Pending {
  graces: AbcGrace[];
  hasGraceSlash: boolean;
  decorations: string[];
  chordSymbols: string[];
  annotations: AbcAnnotation[];
  slurStarts: number[];
}

/** Nothing that waits. */
export const nothingPending = (): Pending => ({
  graces: [],
  hasGraceSlash: false,
  decorations: [],
  chordSymbols: [],
  annotations: [],
  slurStarts: [],
});

/** Puts a text in quotes where it belongs: words beside the note where a sign says where, else a chord symbol. */
export function sayQuoted(at: Pick<AbcEvent, 'chordSymbols' | 'annotations'>, text: string): void {
  const [, sign = '', words = ''] = /^([\^_<>@]?)(.*)$/s.exec(plainText(text)) ?? [];
  if (sign === '') at.chordSymbols.push(words.trim());
  else
    at.annotations.push({
      text: words.replace(/^[-\d.,\s]*(?=[^\d.,\s-])/, sign === '@' ? '' : '$&'),
      placement: sign === '_' ? 'below' : 'above',
    });
}

/** Takes out the decorations that belong to the end of a bar: jumps; at the end of the tune also what else stands beside the notes. */
export function takeAtBarEnd(pending: Pending, isTuneEnd: boolean): string[] {
  const belongs = (name: string): boolean => isAtBarEnd(name) || (isTuneEnd && isDirection(name));
  const taken = pending.decorations.filter(belongs);
  pending.decorations = pending.decorations.filter((name) => !belongs(name));
  return taken;
}

/** What still waits, in words; empty where nothing does. */
export function namesOf({ graces, decorations, chordSymbols, annotations }: Pending): string[] {
  return [
    ...(graces.length > 0 ? ['grace notes'] : []),
    ...decorations.map((name) => `the decoration “${name}”`),
    ...chordSymbols.map((text) => `“${text}”`),
    ...annotations.map(({ text }) => `“${text}”`),
  ];
}
