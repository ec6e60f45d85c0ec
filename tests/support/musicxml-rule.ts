import type { SimpleType } from './musicxml-types.data.ts';

/** What an element may hold, say and carry. */
export interface ElementRule {
  /** Children in order as a regular expression over names, `?`, `*`, `+`, `|` as usual; empty for none. */
  readonly content: string;
  /** The simple type of its text; null where it holds no text. */
  readonly text: SimpleType | null;
  /** Attributes as `name:type`, with `!` after the name where it is required, and names of groups. */
  readonly attributes: string;
}
export type ElementRules = Readonly<Record<string, ElementRule>>;

/** An element that holds others. */
export const holds = (content: string, attributes = ''): ElementRule => ({ content, text: null, attributes });

/** An element that holds text. */
export const says = (text: SimpleType, attributes = ''): ElementRule => ({ content: '', text, attributes });

/** An element that holds nothing. */
export const empty = (attributes = ''): ElementRule => holds('', attributes);

/** The same rule for several names. */
export const alike = (names: string, rule: ElementRule): ElementRules =>
  Object.fromEntries(names.split(' ').map((name) => [name, rule]));
