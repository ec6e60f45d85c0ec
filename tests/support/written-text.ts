import type { WrittenEvent, WrittenScore, WrittenStaff } from '../../music/score/written.ts';

const valueSigns: Readonly<Record<string, string>> = {
  breve: 'b',
  whole: '1',
  half: '2',
  quarter: '4',
  eighth: '8',
  '16th': '16',
  '32nd': '32',
  '64th': '64',
  '128th': '128',
  '256th': '256',
};

const headText = (head: WrittenEvent['heads'][number]): string => {
  const { sound } = head;
  const accidental = sound.kind === 'hit' ? '' : sound.pitch.alter === 1 ? '#' : sound.pitch.alter === -1 ? 'b' : '';
  const name = sound.kind === 'hit' ? 'x' : `${sound.pitch.step}${accidental}${sound.pitch.octave}`;
  return `${head.isTiedFromBefore ? '~' : ''}${name}${head.isTiedOn ? '~' : ''}`;
};

function eventText(event: WrittenEvent): string {
  const { value, tupletEdge, innerTuplet } = event;
  const sign = event.isBarRest ? 'bar' : `${valueSigns[value.type] ?? value.type}${'.'.repeat(value.dots)}`;
  const tuplet = value.tuplet === null ? '' : `/${value.tuplet.actual}:${value.tuplet.normal}`;
  const heads = event.heads.length === 0 ? 'r' : event.heads.map(headText).join('+');
  const opening = `${tupletEdge === 'start' ? '[' : ''}${innerTuplet?.edge === 'start' ? '[' : ''}`;
  const closing = `${innerTuplet?.edge === 'stop' ? ']' : ''}${tupletEdge === 'stop' ? ']' : ''}`;
  return `${opening}${heads}:${sign}${tuplet}${closing}`;
}

/** One staff as a readable line: `C4:4 r:2. | r:bar`; `~` is a tie, `[…]` a tuplet. */
const staffText = (staff: WrittenStaff): string =>
  staff.bars.map((events) => events.map(eventText).join(' ')).join(' | ');

/** The staff of a line, or the only one. */
export const writtenText = (score: WrittenScore, index = 0): string => staffText(score.staves[index]!);
