import { z } from 'zod';
import {
  barId,
  fourVoices,
  fraction,
  lineId,
  oneGuitar,
  stringQuartet,
  type Ensemble,
  type Place,
} from '../music/index.ts';

/** What a file is of: the score as it came with its lines' colours and a voice for each, the lines written out, one of them, or the lines set for an ensemble. */
export const exportWhat = z.enum(['score', 'lines', 'line', 'ensemble']);
export type ExportWhat = z.output<typeof exportWhat>;

/** The kinds of file that the server makes; `archive` is a zip of all of them. */
export const exportFormat = z.enum(['musicxml', 'mxl', 'midi', 'abc', 'archive']);
export type ExportFormat = z.output<typeof exportFormat>;

/** Ensembles that lines can be set for. */
export const exportEnsemble = z.enum(['guitar', 'fourVoices', 'stringQuartet']);
export type ExportEnsemble = z.output<typeof exportEnsemble>;

/** Who plays in each ensemble that lines can be set for. */
export const exportEnsembles: Readonly<Record<ExportEnsemble, Ensemble>> = {
  guitar: oneGuitar,
  fourVoices,
  stringQuartet,
};

const placeText = z
  .string()
  .regex(/^[^+~]{1,64}\+\d{1,6}\/[1-9]\d{0,5}$/, 'a place is a bar’s id, a plus and quarters as a fraction: b3+1/2')
  .transform((text): Place => {
    const [bar = '', offset = ''] = text.split('+');
    const [numerator, denominator] = offset.split('/').map(Number);
    return { bar: barId(bar), offset: fraction(numerator ?? 0, denominator ?? 1) };
  });

/** What is asked for: by default the whole piece, notes held to their line's next note, repeats as they are written, without tablature. */
export const exportQuery = z
  .object({
    what: exportWhat,
    format: exportFormat,
    line: z.string().min(1).max(64).transform(lineId).optional(),
    ensemble: exportEnsemble.optional(),
    from: placeText.optional(),
    to: placeText.optional(),
    lengths: z.enum(['written', 'next', 'string']).default('next'),
    tablature: z.enum(['with', 'without']).default('without'),
    repeats: z.enum(['written', 'unfolded']).default('written'),
  })
  .refine(({ what, line }) => what !== 'line' || line !== undefined, { path: ['line'], message: 'say which line' })
  .refine(({ what, ensemble }) => what !== 'ensemble' || ensemble !== undefined, {
    path: ['ensemble'],
    message: 'say for which ensemble',
  })
  .refine(({ from, to }) => (from === undefined) === (to === undefined), {
    path: ['to'],
    message: 'an excerpt has both ends',
  });
export type ExportWish = z.output<typeof exportQuery>;

/** What a file could not say, told in the header `heddle-notes` as percent-encoded JSON. */
export const exportNotes = z.array(z.string().max(500)).max(20);
