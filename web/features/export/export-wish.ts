import type { ExportEnsemble } from '../../../contract/index.ts';
import type { LengthMode, LineId } from '../../../music/index.ts';
import type { SoundFormat } from '../../../recording/index.ts';
import { soundKinds } from './sound-kinds.ts';

/** The kinds of file that one can take out. */
export type FileKind = DocumentKind | SoundFormat;
export type DocumentKind = 'pdfA4' | 'pdfLetter' | 'png' | 'svg' | 'musicxml' | 'mxl' | 'midi' | 'abc' | 'archive';

/** Everything that can be chosen about a file. */
export interface ExportChoice {
  readonly kind: FileKind;
  /** `score`, `lines`, the value of an ensemble, or a line's id. */
  readonly of: string;
  readonly isExcerpt: boolean;
  readonly lengths: LengthMode;
  readonly marks: 'none' | 'colours' | 'threads';
  readonly lifted: LineId | null;
  readonly ground: 'light' | 'dark';
  readonly enlargement: 1 | 2 | 4;
  readonly hasTablature: boolean;
  readonly isUnfolded: boolean;
}

/** A kind of file in words. */
export interface KindWords {
  readonly kind: FileKind;
  /** After “I want”. */
  readonly text: string;
  readonly gets: string;
  /** Drawn here, in the page; else made by the server. */
  readonly isEngraved: boolean;
}

/** What each kind of file is good for. */
export const kinds: readonly KindWords[] = [
  {
    kind: 'pdfA4',
    text: 'pages to print, A4 (PDF)',
    gets: 'Pages with title, composer and page numbers, sharp at any size.',
    isEngraved: true,
  },
  {
    kind: 'pdfLetter',
    text: 'pages to print, Letter (PDF)',
    gets: 'Pages with title, composer and page numbers, sharp at any size.',
    isEngraved: true,
  },
  {
    kind: 'png',
    text: 'a picture for a video (PNG)',
    gets: 'A picture without a background, to be laid over a video.',
    isEngraved: true,
  },
  {
    kind: 'svg',
    text: 'a drawing for a video (SVG)',
    gets: 'A drawing without a background, sharp at any size; each head in it carries the name of its note and the letters of its lines.',
    isEngraved: true,
  },
  {
    kind: 'musicxml',
    text: 'MusicXML',
    gets: 'Notes that nearly every program for notation opens.',
    isEngraved: false,
  },
  {
    kind: 'mxl',
    text: 'MusicXML, packed (.mxl)',
    gets: 'The same as MusicXML, a tenth of the size.',
    isEngraved: false,
  },
  {
    kind: 'midi',
    text: 'MIDI',
    gets: 'A track for each line with tempo, meter and key, for programs that play and record.',
    isEngraved: false,
  },
  {
    kind: 'abc',
    text: 'ABC',
    gets: 'Notes as plain text, to be read, mailed and mended by hand.',
    isEngraved: false,
  },
  ...soundKinds.map((words) => ({ ...words, isEngraved: false })),
  {
    kind: 'archive',
    text: 'everything, in one archive (zip)',
    gets: 'Pages, pictures and notes of every kind above, of the score, of all lines and of each line, with the file as it came and a list of contents.',
    isEngraved: true,
  },
];

/** An ensemble among what a file can be of. */
interface EnsembleChoice {
  readonly value: string;
  /** After “of”. */
  readonly text: string;
  /** Below a title, and in a file’s name. */
  readonly subtitle: string;
  readonly ensemble: ExportEnsemble;
}

/** Ensembles that lines can be set for. */
export const ensembleChoices: readonly EnsembleChoice[] = [
  {
    value: 'ensemble:guitar',
    text: 'the lines for guitars, one each',
    subtitle: 'for guitars',
    ensemble: 'guitar',
  },
  {
    value: 'ensemble:fourVoices',
    text: 'the lines for four voices',
    subtitle: 'for four voices',
    ensemble: 'fourVoices',
  },
  {
    value: 'ensemble:stringQuartet',
    text: 'the lines for a string quartet',
    subtitle: 'for string quartet',
    ensemble: 'stringQuartet',
  },
];

/** The ensemble that a file is of, if it is of one. */
export const ensembleOf = (of: string): EnsembleChoice | null =>
  ensembleChoices.find(({ value }) => value === of) ?? null;

/** The words of a kind. */
export const wordsOf = (kind: FileKind): KindWords =>
  kinds.find((words) => words.kind === kind) ?? (kinds[0] as KindWords);

/** What is chosen before anybody chose. */
export const firstChoice = (isExcerpt: boolean): ExportChoice => ({
  kind: 'pdfA4',
  of: 'score',
  isExcerpt,
  lengths: 'next',
  marks: 'threads',
  lifted: null,
  ground: 'light',
  enlargement: 2,
  hasTablature: false,
  isUnfolded: true,
});

/** Which settings a choice leaves open. */
export function openSettings({ kind, of, marks }: ExportChoice): {
  readonly of: boolean;
  readonly lengths: boolean;
  readonly marks: boolean;
  readonly lifted: boolean;
  readonly ground: boolean;
  readonly enlargement: boolean;
  readonly tablature: boolean;
  readonly repeats: boolean;
} {
  const { isEngraved } = wordsOf(kind);
  const isArchive = kind === 'archive';
  const isSound = isSoundKind(kind);
  const isStill = kind === 'png' || kind === 'svg';
  return {
    of: !isArchive && !isSound,
    lengths: isArchive || (!isSound && of !== 'score'),
    marks: isEngraved,
    lifted: isEngraved && !isArchive && marks !== 'none' && isOfSeveral(of),
    ground: isStill || isArchive,
    enlargement: kind === 'png' || isArchive,
    tablature: isArchive || (!isSound && !isOfLines(kind) && hasStrings(of)),
    repeats: isArchive || kind === 'midi',
  };
}

/** Whether a kind of file is sound. */
export const isSoundKind = (kind: FileKind): kind is SoundFormat => kind === 'wav' || kind === 'flac' || kind === 'mp3';

/** Whether a kind of file has lines only, not the score as it came. */
export const isOfLines = (kind: FileKind): boolean => kind === 'midi' || kind === 'abc';

/** Whether what is written out is for guitars, so that its strings can be shown. */
const hasStrings = (of: string): boolean => of !== 'score' && (ensembleOf(of)?.ensemble ?? 'guitar') === 'guitar';

const isOfSeveral = (of: string): boolean => of === 'score' || of === 'lines' || ensembleOf(of) !== null;

/** A choice that is possible: MIDI and ABC are of lines, not of the score as it came. */
export const possible = (choice: ExportChoice): ExportChoice =>
  isOfLines(choice.kind) && choice.of === 'score' ? { ...choice, of: 'lines' } : choice;

/** A size of file in words. */
export const sizeWords = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
