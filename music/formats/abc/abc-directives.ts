import type { AccidentalReach } from './abc-accidentals.ts';

/** What an instruction says that bears on the music. */
export type Directive =
  | { readonly kind: 'reach'; readonly reach: AccidentalReach }
  /** A sign ends a line of print and is no decoration. */
  | { readonly kind: 'lineBreaks'; readonly hasExclamation: boolean }
  | { readonly kind: 'nothing' }
  | { readonly kind: 'unread' };

/** Instructions that say nothing about what sounds and how it is written out: the file itself. */
const silent = /^(?:abc-(?:charset|version|include|creator|edited-by)|decoration|text|center|sep|newpage|vskip)\b/;

/** An instruction after `%%` or `I:`, which are the same. **Source** ABC 2.1, I: instruction, from memory. */
export function directiveOf(text: string): Directive {
  const [, reach] = /^propagate-accidentals\s+(not|octave|pitch)\b/.exec(text) ?? [];
  if (reach !== undefined) return { kind: 'reach', reach: reach as AccidentalReach };
  const [, breaks] = /^linebreak\b\s*(.*)$/.exec(text) ?? [];
  if (breaks !== undefined) return { kind: 'lineBreaks', hasExclamation: breaks.includes('!') };
  return silent.test(text) ? { kind: 'nothing' } : { kind: 'unread' };
}
