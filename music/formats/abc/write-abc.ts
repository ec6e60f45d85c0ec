import type { Issue } from '../../basis/issue.ts';
import type { WrittenBar, WrittenEvent, WrittenScore, WrittenStaff } from '../../score/written.ts';
import { lyricsIn, versesOf } from '../../score/verses.ts';
import { clefText, keyText, meterText } from './abc-letters.ts';
import { AbcBarWriter } from './write-abc-bar.ts';
import { lyricLines } from './write-abc-lyrics.ts';

/** Written lines as ABC, and what ABC has no place for. */
export interface WrittenAbc {
  readonly text: string;
  readonly issues: readonly Issue[];
}

const barsInLine = 4;

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** A text on one line, with what would be read as something else escaped. **Source** ABC 2.1, text strings, from memory. */
const plain = (text: string): string =>
  text
    .replace(/[\r\n]+/g, ' ')
    .replace(/[\\%]|&(?=[A-Za-z]+\d?;)/g, '\\$&')
    .trim();

/** Whether a repeat ends with a bar. ABC has no sign for one that is played once. */
const closesRepeat = ({ repeatTimes, endings }: WrittenBar['signs']): boolean =>
  repeatTimes > 1 || (repeatTimes > 0 && endings.length > 0);

/** Signs before a bar: its line, with repeats and endings. */
function openingOf({ signs }: WrittenBar, before: WrittenBar | undefined): string {
  const closes = before !== undefined && closesRepeat(before.signs);
  const times = (before?.signs.repeatTimes ?? 2) - 1;
  const ends = closes ? ':'.repeat(Math.max(1, times)) : '';
  const leaves =
    before !== undefined && before.signs.endings.length > 0 && !isSame(signs.endings, before.signs.endings);
  const line =
    before === undefined
      ? signs.startsRepeat
        ? '|:'
        : ''
      : `${ends}|${leaves && !closes ? '|' : ''}${signs.startsRepeat ? ':' : ''}`;
  const starts = signs.endings.length > 0 && !isSame(signs.endings, before?.signs.endings ?? []);
  return starts ? `${line} [${signs.endings.join(',')}` : line;
}

/** Fields that change with a bar, inline. */
function changesOf(bar: WrittenBar, before: WrittenBar | undefined, isFirstStaff: boolean): string {
  const mark =
    isFirstStaff && bar.signs.rehearsalMark !== null
      ? `[P:${plain(bar.signs.rehearsalMark).replaceAll(']', ')')}]`
      : '';
  if (before === undefined) return mark;
  const meter = isSame(bar.meter, before.meter) ? '' : `[M:${meterText(bar.meter)}]`;
  const key = isSame(bar.key, before.key) ? '' : `[K:${keyText(bar.key)}]`;
  return `${mark}${meter}${key}`;
}

interface Line {
  readonly music: string[];
  readonly events: WrittenEvent[];
}

function staffText(written: WrittenScore, staff: WrittenStaff, place: number, leftOut: Set<string>): string[] {
  const writer = new AbcBarWriter(written.ticksPerQuarter, staff, place === 0, leftOut);
  if (staff.tablature !== null) leftOut.add('strings and frets');
  if (staff.clefChanges.length > 0) leftOut.add('changes of clef');
  if (written.bars.some(({ signs }) => signs.repeatsAfterJump)) leftOut.add('repeats that are taken after a jump');
  if (written.bars.some(({ signs }) => signs.repeatTimes === 1 && !closesRepeat(signs)))
    leftOut.add('repeat signs for one time');
  const lines: Line[] = [];
  for (const [index, bar] of written.bars.entries()) {
    if (index % barsInLine === 0) lines.push({ music: [], events: [] });
    const events = staff.bars[index] ?? [];
    const before = written.bars[index - 1];
    const music = `${openingOf(bar, before)} ${changesOf(bar, before, place === 0)}${writer.bar(bar, events, index)}`;
    lines.at(-1)?.music.push(music.trim());
    lines.at(-1)?.events.push(...events);
  }
  const last = written.bars.at(-1);
  const closes = last !== undefined && closesRepeat(last.signs);
  lines.at(-1)?.music.push(closes ? `${':'.repeat(Math.max(1, last.signs.repeatTimes - 1))}|` : '|]');
  const verses = versesOf(staff.bars.flatMap(lyricsIn));
  return lines.flatMap(({ music, events }) => [music.join(' '), ...lyricLines(events, verses)]);
}

function tempoField({ bars }: WrittenScore): string[] {
  const opening = bars[0]?.directions.find((direction) => direction.kind === 'tempo' && direction.onsetTicks === 0);
  return opening?.kind === 'tempo' ? [`Q:1/4=${Number(opening.quartersPerMinute.toFixed(3))}`] : [];
}

function header(written: WrittenScore): string[] {
  const first = written.bars[0];
  return [
    'X:1',
    ...(written.title === '' ? [] : [`T:${plain(written.title)}`]),
    ...(written.composer === '' ? [] : [`C:${plain(written.composer)}`]),
    `M:${first === undefined ? '4/4' : meterText(first.meter)}`,
    'L:1/8',
    ...tempoField(written),
    ...written.staves.map(
      ({ name, clef }, index) => `V:${index + 1} name="${plain(name).replaceAll('"', '”')}" clef=${clefText(clef)}`,
    ),
    `K:${first === undefined ? 'C' : keyText(first.key)}`,
  ];
}

const leftOutIssue = (name: string): Issue => ({
  code: 'element-left-out',
  severity: 'note',
  where: { kind: 'file' },
  detail: `ABC has no place for ${name}; left out.`,
});

/** Written lines as an ABC tune with a voice for each; accidentals are written so that no reader can mistake them. **Units** lengths in eighths. **Source** ABC 2.1, from memory. */
export function writeAbc(written: WrittenScore): WrittenAbc {
  const leftOut = new Set<string>();
  const voices = written.staves.flatMap((staff, place) => [
    `V:${place + 1}`,
    ...staffText(written, staff, place, leftOut),
  ]);
  return { text: [...header(written), ...voices, ''].join('\n'), issues: [...leftOut].sort().map(leftOutIssue) };
}
