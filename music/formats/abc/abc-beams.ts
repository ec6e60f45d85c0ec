import { beamsWithin, canBeam, type Beamable, type Beams } from '../musicxml-writer/beaming.ts';
import type { EventPiece } from './abc-note-elements.ts';

const beamableOf = ({ value, event }: EventPiece): Pick<Beamable, 'value' | 'heads'> => ({
  value: { type: value.type ?? 'quarter' },
  heads: event.notes,
});

/** The pieces of a bar's events with their beams: notes that stand together without white space share one. **Source** ABC 2.1, beams, from memory. */
export function withAbcBeams(events: readonly (readonly EventPiece[])[]): readonly (readonly EventPiece[])[] {
  const runs: EventPiece[][] = [];
  let isOpen = false;
  for (const piece of events.flat()) {
    const holds = canBeam(beamableOf(piece));
    if (holds && isOpen) runs.at(-1)?.push(piece);
    else if (holds) runs.push([piece]);
    isOpen = holds && !(piece.isLast && piece.event.endsBeam);
  }
  const beams = new Map<EventPiece, Beams>();
  for (const run of runs.filter(({ length }) => length > 1)) {
    const group = run.map(beamableOf);
    run.forEach((piece, index) => beams.set(piece, beamsWithin(group, index)));
  }
  return events.map((pieces) => pieces.map((piece) => ({ ...piece, beams: beams.get(piece) ?? [] })));
}
