import type { Pitch } from '../../basis/pitch.ts';
import type { HitKind } from '../../score/score.ts';

/** How each kind of hit is written on a staff of one line: its name and where its x stands, read as in a treble clef. */
export const hitHeads: Readonly<
  Record<HitKind, { readonly name: string; readonly step: Pitch['step']; readonly octave: number }>
> = {
  lowBody: { name: 'Low body', step: 'C', octave: 4 },
  stringSlap: { name: 'String slap', step: 'E', octave: 4 },
  deadNote: { name: 'Dead note', step: 'E', octave: 4 },
  highBody: { name: 'High body', step: 'G', octave: 4 },
};

/** The kinds of hits in the order in which they are listed. */
export const hitKinds: readonly HitKind[] = ['lowBody', 'highBody', 'stringSlap', 'deadNote'];
