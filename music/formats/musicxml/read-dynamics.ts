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
  return { ...place, placement: placement === 'above' || placement === 'below' ? placement : null };
}

/** Reads a `<dynamics>`: a level from its moment on, or an accent at it. **Source** MusicXML 4.0, dynamics. */
export function readDynamics(dynamics: XmlElement, part: RawPart, place: DynamicPlace): void {
  const moment = placed(dynamics, place);
  for (const { name } of elementsOf(dynamics)) {
    if (isDynamicLevel(name)) part.dynamics.push({ ...moment, mark: { kind: 'level', level: name } });
    if (!isDynamicAccent(name)) continue;
    part.dynamics.push({ ...moment, mark: { kind: 'accent', sign: name } });
    const level = levelAfterAccent[name];
    if (level !== null) part.dynamics.push({ ...moment, mark: { kind: 'level', level } });
  }
}

/** Reads a `<wedge>`: one edge of a hairpin. */
export function readWedge(wedge: XmlElement, part: RawPart, place: DynamicPlace): void {
  const moment = placed(wedge, place);
  const type = wedge.attributes['type'];
  const number = wedge.attributes['number'] ?? '1';
  if (type === 'stop') part.dynamics.push({ ...moment, mark: { kind: 'hairpinStop', number } });
  else if (type === 'crescendo' || type === 'diminuendo') {
    const direction = type === 'crescendo' ? 'louder' : 'softer';
    part.dynamics.push({ ...moment, mark: { kind: 'hairpinStart', direction, number } });
  }
}
