import { exportEnsembles, type ExportFormat } from '../../../contract/index.ts';
import { activeLines, type Excerpt } from '../../../music/index.ts';
import type { EngravedLosses, EngravedMusic, EngravedOf, EngravedWish } from '../../engraving/print/engraved-files.ts';
import { fetchExport, type ExportRequest } from '../../lib/api/exports.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { ensembleOf, openSettings, type DocumentKind, type ExportChoice } from './export-wish.ts';

/** The song that files are made of. */
export interface ExportedSong extends EngravedMusic {
  readonly id: string;
  readonly title: string;
  readonly composer: string;
  readonly excerpt: Excerpt | null;
}

/** A file, with sentences about what it could not say. */
export interface MadeFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly notes: readonly string[];
}

/** How far the work is, in words and numbers. */
export interface MakingProgress {
  readonly label: string;
  readonly done: number;
  readonly total: number;
}
export type OnProgress = (progress: MakingProgress) => void;

/** A title as the stem of a file's name. */
const stemOf = (title: string): string =>
  title
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 80) || 'song';

function lossSentences({ missing, losses }: EngravedLosses): readonly string[] {
  const letters = [...new Set(missing)].join(' ');
  return letters === '' ? losses : [...losses, `Our typefaces have no ${letters}; these letters were left out.`];
}

const lineOf = (song: ExportedSong, of: string) => activeLines(song.split).find(({ id }) => id === of);

function engravedOf(song: ExportedSong, { of }: ExportChoice): EngravedOf {
  if (of === 'score') return { kind: 'score' };
  const line = lineOf(song, of);
  if (line !== undefined) return { kind: 'line', line: line.id };
  const named = ensembleOf(of);
  return { kind: 'lines', ensemble: named === null ? null : exportEnsembles[named.ensemble] };
}

function engravedWish(song: ExportedSong, choice: ExportChoice): EngravedWish {
  return {
    of: engravedOf(song, choice),
    hasTablature: choice.hasTablature && openSettings(choice).tablature,
    excerpt: choice.isExcerpt ? song.excerpt : null,
    lengths: choice.lengths,
    marks: choice.marks,
    lifted: choice.lifted,
  };
}

/** What a file is of, for names and titles. */
export function ofWords(song: ExportedSong, { of }: Pick<ExportChoice, 'of'>): string {
  if (of === 'score') return '';
  return lineOf(song, of)?.name ?? ensembleOf(of)?.subtitle ?? 'the lines, written out';
}

function subtitleOf(song: ExportedSong, choice: Pick<ExportChoice, 'of' | 'isExcerpt'>): string {
  const bars = choice.isExcerpt && song.excerpt !== null ? excerptWords(song.score, song.excerpt) : '';
  return [ofWords(song, choice), bars].filter((words) => words !== '').join(', ');
}

function nameOf(song: ExportedSong, choice: Pick<ExportChoice, 'of' | 'isExcerpt'>, ending: string): string {
  return `${stemOf([song.title, subtitleOf(song, choice)].join(' '))}.${ending}`;
}

/** The name of a file of sound. */
export const nameOfSound = (song: ExportedSong, isExcerpt: boolean, ending: string): string =>
  nameOf(song, { of: 'score', isExcerpt }, ending);

type Engraver = (song: ExportedSong, choice: ExportChoice, onProgress: OnProgress) => Promise<MadeFile>;

const counted = (onProgress: OnProgress, label: string) => (done: number, total: number) =>
  onProgress({ label, done, total });

const toOwn = (bytes: Uint8Array): Uint8Array<ArrayBuffer> => new Uint8Array(bytes);

const printed =
  (paper: 'a4' | 'letter'): Engraver =>
  async (song, choice, onProgress) => {
    const print = await import('../../engraving/print/engraved-files.ts');
    const words = { title: song.title, subtitle: subtitleOf(song, choice), composer: song.composer };
    const onSystem = counted(onProgress, 'Setting the systems');
    const made = await print.printedFile(song, engravedWish(song, choice), paper, words, onSystem);
    return { name: nameOf(song, choice, 'pdf'), bytes: toOwn(made.bytes), notes: lossSentences(made) };
  };

const pictured =
  (ending: 'png' | 'svg'): Engraver =>
  async (song, choice, onProgress) => {
    const print = await import('../../engraving/print/engraved-files.ts');
    const onSystem = counted(onProgress, 'Drawing the systems');
    const still = await print.stillOf(song, engravedWish(song, choice), choice.ground, onSystem);
    const title = [song.title, subtitleOf(song, choice)].filter((words) => words !== '').join(', ');
    const bytes = ending === 'svg' ? print.svgOfStill(still, title) : await print.pngOfStill(still, choice.enlargement);
    return { name: nameOf(song, choice, ending), bytes: toOwn(bytes), notes: lossSentences(still) };
  };

/** The kinds of file that the page itself makes. */
export type EngravedKind = Exclude<DocumentKind, ExportFormat>;

/** How the page itself makes files. */
export const engravers: Readonly<Record<EngravedKind, Engraver>> = {
  pdfA4: printed('a4'),
  pdfLetter: printed('letter'),
  png: pictured('png'),
  svg: pictured('svg'),
};

/** What the server is asked for. */
function whatOf(song: ExportedSong, { of, kind }: ExportChoice): Pick<ExportRequest, 'what' | 'line' | 'ensemble'> {
  const plain = { line: null, ensemble: null };
  if (kind === 'archive') return { ...plain, what: 'lines' };
  const named = ensembleOf(of);
  if (named !== null) return { ...plain, what: 'ensemble', ensemble: named.ensemble };
  const line = lineOf(song, of);
  if (line !== undefined) return { ...plain, what: 'line', line: line.id };
  return { ...plain, what: of === 'score' ? 'score' : 'lines' };
}

/** A file that the server makes. */
export async function served(
  song: ExportedSong,
  choice: ExportChoice,
  format: ExportFormat,
  onProgress: OnProgress,
): Promise<MadeFile> {
  onProgress({ label: 'Writing the notes', done: 0, total: 1 });
  return fetchExport(song.id, {
    ...whatOf(song, choice),
    format,
    excerpt: choice.isExcerpt ? song.excerpt : null,
    lengths: choice.lengths,
    hasTablature: choice.hasTablature && openSettings(choice).tablature,
    isUnfolded: choice.isUnfolded,
  });
}
