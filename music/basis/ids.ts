declare const brand: unique symbol;
type Branded<Name extends string> = string & { readonly [brand]: Name };

/** Names one written note head or fret number; unique within a song and never reused. */
export type HeadId = Branded<'HeadId'>;
/** Names one sounding note: the id of its first notation head, or of its first tablature head where no notation exists. */
export type NoteId = Branded<'NoteId'>;
/** Names one written bar; the printed number is only a label. Unique within a song and never reused. */
export type BarId = Branded<'BarId'>;
/** Names one part of a score, as the file names it. */
export type PartId = Branded<'PartId'>;
/** Names one line of a split. */
export type LineId = Branded<'LineId'>;
/** Names one person. */
export type PersonId = Branded<'PersonId'>;
/** Names one operation; unique per person and split. */
export type OperationId = Branded<'OperationId'>;

export const headId = (text: string): HeadId => text as HeadId;
export const noteId = (text: string): NoteId => text as NoteId;
export const barId = (text: string): BarId => text as BarId;
export const partId = (text: string): PartId => text as PartId;
export const lineId = (text: string): LineId => text as LineId;
export const personId = (text: string): PersonId => text as PersonId;
export const operationId = (text: string): OperationId => text as OperationId;
