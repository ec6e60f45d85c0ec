import type { ExportEnsemble } from '../../contract/index.ts';
import { fourVoices, oneGuitar, stringQuartet, type Ensemble } from '../../music/index.ts';

/** The ensembles that may be asked for. */
export const ensembles: Readonly<Record<ExportEnsemble, Ensemble>> = {
  guitar: oneGuitar,
  fourVoices,
  stringQuartet,
};
