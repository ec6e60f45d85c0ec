import type { NoteId, SoundingNote } from '../../music/index.ts';
import { middleOf, type DrawnHead, type DrawnStrip, type DrawnSystem } from './geometry.ts';
import { svgElement } from './svg.ts';

/** The written stretch of a strip. **Units** ticks. */
export interface StripStretch {
  readonly startTicks: number;
  readonly endTicks: number;
}

/** The halves of ties that leave a strip at its right edge or come into it at its left, which the engraver cannot know of. */
export function drawHalfTies(
  drawn: DrawnStrip,
  stretch: StripStretch,
  noteOf: (note: NoteId) => SoundingNote | undefined,
): readonly SVGElement[] {
  const heads = drawn.heads.filter((head) => head.kind === 'head');
  const firstSystem = drawn.systems[0];
  const lastSystem = drawn.systems.at(-1);
  return heads.flatMap((head) => {
    const note = noteOf(head.note);
    if (note === undefined || firstSystem === undefined || lastSystem === undefined) return [];
    const own = heads.filter((other) => other.note === head.note);
    const ties: SVGElement[] = [];
    if (note.onsetTicks + note.lengthTicks > stretch.endTicks && isOutermost(head, own, 'right')) {
      ties.push(arc(middleOf(head.box).x + 6, lastSystem.right, head, lastSystem));
    }
    if (note.onsetTicks < stretch.startTicks && isOutermost(head, own, 'left')) {
      ties.push(arc(middleOf(head.box).x - 30, middleOf(head.box).x - 6, head, firstSystem));
    }
    return ties;
  });
}

const isOutermost = (head: DrawnHead, own: readonly DrawnHead[], side: 'left' | 'right'): boolean =>
  own.every((other) => (side === 'right' ? other.box.x <= head.box.x + 2 : other.box.x >= head.box.x - 2));

function arc(fromX: number, toX: number, head: DrawnHead, system: DrawnSystem): SVGElement {
  const { y } = middleOf(head.box);
  const staff = system.staves.find((candidate) => candidate.kind === 'notation')?.lineYs ?? [y];
  const middle = ((staff[0] ?? y) + (staff.at(-1) ?? y)) / 2;
  const side = y > middle ? 1 : -1;
  const at = y + side * 6;
  const height = side * Math.min(9, 4 + (toX - fromX) / 14);
  const middleX = (fromX + toX) / 2;
  const path = svgElement('path', {
    d: `M${fromX} ${at}Q${middleX} ${at + height * 1.6} ${toX} ${at}Q${middleX} ${at + height * 1.15} ${fromX} ${at}Z`,
  });
  path.style.fill = 'var(--ink)';
  return path;
}
