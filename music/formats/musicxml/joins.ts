import type { XmlElement } from '../xml/tree.ts';
import type { IssueLog } from './issue-log.ts';
import type { RawHead, RawJoinEdge, RawPart } from './raw-part.ts';

const order = (a: RawJoinEdge, b: RawJoinEdge): number =>
  a.head.barIndex - b.head.barIndex ||
  a.head.offsetTicks - b.head.offsetTicks ||
  Number(b.head.isGrace) - Number(a.head.isGrace) ||
  Number(a.edge === 'start') - Number(b.edge === 'start');

interface Open {
  readonly head: RawHead;
  readonly number: string;
}

/** The open sign that a stop belongs to: of its number, in its own voice and staff if there is one, the earliest. */
function takeStart(open: Open[], { number, head }: RawJoinEdge): Open | undefined {
  const own = open.findIndex(
    (start) => start.number === number && start.head.voice === head.voice && start.head.staff === head.staff,
  );
  const at = own >= 0 ? own : open.findIndex((start) => start.number === number);
  return at < 0 ? undefined : open.splice(at, 1)[0];
}

/** Tells of each hammer-on, pull-off and slide that begins and never ends, or ends and never began. A slide that never ends slides out of its note. */
export function settleJoins(part: RawPart, log: IssueLog): void {
  const opens = new Map<RawJoinEdge['name'], Open[]>();
  const report = ({ barIndex, offsetTicks }: RawHead, detail: string): void => {
    log.add('span-unresolved', 'warning', detail, { partName: part.name, barIndex, offsetTicks });
  };
  for (const edge of [...part.joinEdges].sort(order)) {
    const open = opens.get(edge.name) ?? [];
    opens.set(edge.name, open);
    if (edge.edge === 'start') open.push({ head: edge.head, number: edge.number });
    else if (takeStart(open, edge) === undefined)
      report(edge.head, `A ${edge.name} ends here that begins nowhere; it was taken to come from the note before.`);
  }
  const slidingOut = new Set<XmlElement>();
  for (const [name, open] of opens)
    for (const { head } of open) {
      const isSlide = name === 'slide' || name === 'glissando';
      if (isSlide) slidingOut.add(head.element);
      const kept = isSlide ? 'the note slides out' : 'it was left out';
      report(head, `A ${name} begins here that never ends; ${kept}.`);
    }
  slideOut(part, slidingOut);
}

/** The heads of these elements with a slide out of them. */
function slideOut(part: RawPart, elements: ReadonlySet<XmlElement>): void {
  if (elements.size === 0) return;
  part.heads.forEach((head, index) => {
    if (elements.has(head.element) && !head.techniques.includes('slideOut'))
      part.heads[index] = { ...head, techniques: [...head.techniques, 'slideOut'] };
  });
}
