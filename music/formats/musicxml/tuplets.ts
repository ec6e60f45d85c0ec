import type { Tuplet } from '../../score/marks.ts';
import type { Bar } from '../../score/score.ts';
import type { IssueLog } from './issue-log.ts';
import type { RawPart, RawTupletEdge, TupletRatio } from './raw-part.ts';

interface OpenTuplet {
  readonly edge: RawTupletEdge;
  readonly ratio: TupletRatio;
  readonly depth: number;
}

/** A bracket's own ratio: as it says, else what the notes' ratio leaves over those around it. */
function ratioOf(edge: RawTupletEdge, around: readonly OpenTuplet[]): TupletRatio {
  if (edge.ratio !== null) return edge.ratio;
  const outer = around.reduce(
    (all, { ratio }) => ({ actual: all.actual * ratio.actual, normal: all.normal * ratio.normal }),
    {
      actual: 1,
      normal: 1,
    },
  );
  const actual = edge.noteRatio.actual / outer.actual;
  const normal = edge.noteRatio.normal / outer.normal;
  return Number.isInteger(actual) && Number.isInteger(normal) ? { actual, normal } : edge.noteRatio;
}

const ticksAt = ({ barIndex, offsetTicks }: RawTupletEdge, bars: readonly Bar[]): number =>
  (bars[barIndex]?.onsetTicks ?? 0) + offsetTicks;

/** Edges as they come in time, whatever the order in which voices are written; what stops at a moment before what starts there. */
const inTime = (edges: readonly RawTupletEdge[]): RawTupletEdge[] =>
  edges.toSorted(
    (a, b) =>
      a.barIndex - b.barIndex ||
      a.offsetTicks - b.offsetTicks ||
      Number(a.edge === 'start') - Number(b.edge === 'start'),
  );

/** The tuplet brackets of a part but for those on staves that are left out, nested ones with their depth. Brackets that never end are reported. **Source** MusicXML 4.0, tuplet. */
export function tupletsOf(
  part: RawPart,
  bars: readonly Bar[],
  isLeftOut: (staff: number) => boolean,
  log: IssueLog,
): Tuplet[] {
  const open = new Map<string, OpenTuplet[]>();
  const found: Tuplet[] = [];
  for (const edge of inTime(part.tupletEdges)) {
    if (isLeftOut(edge.staff)) continue;
    const around = open.get(edge.voice) ?? [];
    open.set(edge.voice, around);
    if (edge.edge === 'start') {
      around.push({ edge, ratio: ratioOf(edge, around), depth: around.length + 1 });
      continue;
    }
    const at = around.findLastIndex((tuplet) => tuplet.edge.number === edge.number);
    const [started] = at < 0 ? [] : around.splice(at, 1);
    if (started === undefined) reportLost(part, edge, log);
    else {
      const { ratio, depth } = started;
      const { staff, voice } = started.edge;
      const [onsetTicks, endTicks] = [ticksAt(started.edge, bars), ticksAt(edge, bars)];
      found.push({ part: part.id, staff, voice, onsetTicks, endTicks, ...ratio, depth });
    }
  }
  for (const { edge } of [...open.values()].flat()) reportLost(part, edge, log);
  return found;
}

function reportLost(part: RawPart, { barIndex, offsetTicks }: RawTupletEdge, log: IssueLog): void {
  const place = { partName: part.name, barIndex, offsetTicks };
  log.add(
    'span-unresolved',
    'note',
    'A tuplet bracket begins or ends here alone; the notes keep their lengths.',
    place,
  );
}
