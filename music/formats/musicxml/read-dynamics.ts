import { isDynamicAccent, isDynamicLevel, levelAfterAccent } from '../../score/dynamics.ts';
import { elementsOf, type XmlElement } from '../xml/tree.ts';
import type { DynamicPrint, RawMoment, RawPart } from './raw-part.ts';

/** The moment of a sign, its staff, and the side of it on which its surroundings put it. */
export interface DynamicPlace extends RawMoment {
  readonly staff: number | null;
  readonly placement: string | undefined;
}

function placed({ attributes }: XmlElement, { placement: around, ...place }: DynamicPlace): RawMoment & DynamicPrint {
  const placement = attributes['placement'] ?? around;
  return { placement: placement === 'above' || placement === 'below' ? placement : null, ...place };
}

/** Reads a `<dynamics>`: a level from its moment on, or an accent at it. **Source** MusicXML 4.0, dynamics. */
export function readDynamics(dynamics: XmlElement, part: RawPart, place: DynamicPlace): void {
  const moment = placed(dynamics, place);
  for (const { name } of elementsOf(dynamics)) {
    if (isDynamicLevel(name)) part.dynamics.push({ mark: { kind: 'level', level: name }, ...moment });
    if (!isDynamicAccent(name)) continue;
    part.dynamics.push({ mark: { kind: 'accent', sign: name }, ...moment });
    const level = levelAfterAccent[name];
    if (level !== null) part.dynamics.push({ mark: { kind: 'level', level }, ...moment });
  }
}

/** Reads a `<wedge>`: one edge of a hairpin. */
export function readWedge(wedge: XmlElement, part: RawPart, place: DynamicPlace): void {
  const moment = placed(wedge, place);
  const type = wedge.attributes['type'];
  const number = wedge.attributes['number'] ?? '1';
  if (type === 'stop') part.dynamics.push({ mark: { kind: 'hairpinStop', number }, ...moment });
  else if (type === 'crescendo' || type === 'diminuendo') {
    const direction = type === 'crescendo' ? 'louder' : 'softer';
    part.dynamics.push({ mark: { kind: 'hairpinStart', direction, number }, ...moment });
  }
}
