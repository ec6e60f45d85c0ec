import type { NoteId } from '../../basis/ids.ts';
import type { Slur } from '../../score/marks.ts';
import type { IssueLog } from './issue-log.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawHead, type RawPart } from './raw-part.ts';

interface OpenSlur {
  readonly number: string;
  readonly head: RawHead;
}

/** Finds where slurs that are open end: by number, of equals in the same voice, then the one that began last. */
class SlurFinder {
  private readonly open: OpenSlur[] = [];
  private readonly onLost: (head: RawHead) => void;

  constructor(onLost: (head: RawHead) => void) {
    this.onLost = onLost;
  }

  start(number: string, head: RawHead): void {
    this.open.push({ number, head });
  }

  stop(number: string, head: RawHead): RawHead | null {
    const fits = (slur: OpenSlur): boolean => slur.number === number;
    const own = this.open.findLastIndex((slur) => fits(slur) && slur.head.voice === head.voice);
    const at = own >= 0 ? own : this.open.findLastIndex(fits);
    if (at < 0) {
      this.onLost(head);
      return null;
    }
    return this.open.splice(at, 1)[0]?.head ?? null;
  }

  finish(): void {
    for (const { head } of this.open) this.onLost(head);
  }
}

const inTime = (a: RawHead, b: RawHead): number =>
  a.barIndex - b.barIndex || a.offsetTicks - b.offsetTicks || Number(b.isGrace) - Number(a.isGrace);

function slursOfHeads(
  heads: readonly RawHead[],
  ids: ReadonlyMap<RawHead, NoteId>,
  onLost: (head: RawHead) => void,
): Slur[] {
  const finder = new SlurFinder(onLost);
  const found: Slur[] = [];
  for (const head of heads) {
    for (const number of head.attachments?.slurStops ?? []) {
      const start = finder.stop(number, head);
      const from = start === null ? undefined : ids.get(start);
      const to = ids.get(head);
      if (from !== undefined && to !== undefined && from !== to) found.push({ from, to });
    }
    for (const number of head.attachments?.slurStarts ?? []) finder.start(number, head);
  }
  finder.finish();
  return found;
}

const isOnTablature = (part: RawPart, head: RawHead): boolean => staffKindOf(part, head.staff) === 'tablature';

/** The slurs of all parts in order of their ends; those of a tablature that copies notation are those of the notation. Slurs that begin or end nowhere are reported. */
export function slursOf(layouts: readonly PartLayout[], ids: ReadonlyMap<RawHead, NoteId>, log: IssueLog): Slur[] {
  const found = layouts.flatMap(({ raw }) => {
    const slurred = raw.heads.filter(({ attachments }) => attachments !== null).sort(inTime);
    const onLost = ({ barIndex, offsetTicks }: RawHead): void => {
      log.add('span-unresolved', 'note', 'A slur begins or ends here alone and was left out.', {
        partName: raw.name,
        barIndex,
        offsetTicks,
      });
    };
    return [true, false].flatMap((isTablature) =>
      slursOfHeads(
        slurred.filter((head) => isOnTablature(raw, head) === isTablature),
        ids,
        onLost,
      ),
    );
  });
  return [...new Map(found.map((slur) => [`${slur.from} ${slur.to}`, slur])).values()];
}
