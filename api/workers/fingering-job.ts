import { arrangementOf, fingeringsOf, partId, readNormalised } from '../../music/index.ts';
import type { FingeringJob, FoundFingering } from './jobs.ts';

/** Where the notes of the chosen parts are played. */
export function findFingering({ normalisedXml, parts }: FingeringJob): FoundFingering {
  const score = arrangementOf(readNormalised(normalisedXml).value, parts.map(partId));
  const { value, issues } = fingeringsOf(score);
  return {
    kind: 'foundFingering',
    notes: [...value].map(([note, { string, fret, isProposed }]) => ({ note, string, fret, isProposed })),
    issues: [...issues],
  };
}
