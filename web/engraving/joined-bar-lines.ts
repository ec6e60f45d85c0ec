import type { EngravingRules, SystemLinePosition, SystemLinesEnum, VexFlowConverter } from 'opensheetmusicdisplay';

type Rules = EngravingRules;

interface Measure {
  readonly ParentStaffLine: StaffRow;
  lineTo: (above: Measure, line: unknown) => void;
}

/** A staff of a system. */
interface StaffRow {
  readonly Measures: readonly Measure[];
  readonly ParentStaff: { readonly ParentInstrument: { readonly IdString: string } };
}

type DrawLine = (
  x: number,
  width: number,
  type: SystemLinesEnum,
  position: SystemLinePosition,
  index: number,
  measure: Measure,
) => void;

/** What of the library draws bar lines. */
interface Library {
  readonly VexFlowMusicSystem: { readonly prototype: object };
  readonly VexFlowConverter: Pick<typeof VexFlowConverter, 'line'>;
}

interface System {
  readonly StaffLines: readonly StaffRow[];
  readonly rules: Rules;
  createVerticalLineForMeasure: DrawLine;
}

/** The parts whose bar lines go on up to the part above, by the rules of the engraving that shows them. */
const joinedUpBy = new WeakMap<Rules, ReadonlySet<string>>();

/** The parts of a document that share bar lines with the part above them. **Source** MusicXML 4.0, part-group, group-barline. */
export function partsJoinedUp(document: Document): ReadonlySet<string> {
  const joined = new Set<string>();
  const open = new Map<string, { readonly isJoined: boolean; hasPart: boolean }>();
  for (const entry of document.querySelector('part-list')?.children ?? []) {
    const number = entry.getAttribute('number') ?? '1';
    if (entry.localName === 'part-group' && entry.getAttribute('type') === 'stop') open.delete(number);
    else if (entry.localName === 'part-group') {
      const isJoined = entry.querySelector('group-barline')?.textContent === 'yes';
      open.set(number, { isJoined, hasPart: false });
    } else {
      const groups = [...open.values()];
      if (groups.some(({ isJoined, hasPart }) => isJoined && hasPart)) joined.add(entry.id);
      for (const group of groups) group.hasPart = true;
    }
  }
  return joined;
}

/** Lets an engraving draw the bar lines of these parts up to the parts above. */
export const joinBarLines = (rules: Rules, parts: ReadonlySet<string>): void => void joinedUpBy.set(rules, parts);

/** The measure above, where the bar lines of a measure's part go on up to it. */
function measureAbove({ StaffLines, rules }: System, measure: Measure, index: number): Measure | undefined {
  const line = measure.ParentStaffLine;
  const above = StaffLines[StaffLines.indexOf(line) - 1];
  const part = line.ParentStaff.ParentInstrument;
  const isEdge = above !== undefined && above.ParentStaff.ParentInstrument !== part;
  return isEdge && joinedUpBy.get(rules)?.has(part.IdString) === true ? above.Measures[index] : undefined;
}

const taught = new WeakSet<object>();

/** Teaches the engraver that the instruments of a group may share bar lines; by itself it joins the staves of one instrument only. Once per loaded library. */
export function teachJoinedBarLines({ VexFlowMusicSystem: { prototype }, VexFlowConverter: converter }: Library): void {
  if (taught.has(prototype)) return;
  taught.add(prototype);
  const system = prototype as System;
  const original = system.createVerticalLineForMeasure;
  system.createVerticalLineForMeasure = function drawJoined(this: System, ...line: Parameters<DrawLine>) {
    original.apply(this, line);
    const [, , type, position, index, measure] = line;
    const above = measureAbove(this, measure, index);
    if (above !== undefined) measure.lineTo(above, converter.line(type, position));
  };
}
