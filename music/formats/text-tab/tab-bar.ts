import type { Annotations } from './annotations.ts';
import { addText } from './annotations.ts';
import { annotate } from './annotate.ts';
import { barsOfSystem, type DrawnBar } from './bars-of-system.ts';
import { endingsOfBars, type TabEnding } from './endings.ts';
import { contentOf, isSameAgain, sameAgain, type BarContent, type Moment } from './moments.ts';
import type { StringState } from './read-cell.ts';
import type { StringLine } from './string-line.ts';
import type { RawSystem } from './systems.ts';
import type { TabLog } from './tab-log.ts';
import type { TextLine } from './text-line.ts';
import { timesOf } from './words-around.ts';

/** One bar of the tablature with what stands around it, before its time is known. */
export interface TabBar {
  readonly moments: readonly Moment[];
  /** Of each moment, from the left of the bar. */
  readonly columns: readonly number[];
  readonly width: number;
  readonly marks: Annotations;
  readonly line: TextLine | undefined;
  readonly isOpened: boolean;
  readonly isClosed: boolean;
  /** Whether its system has no bar line within. */
  readonly isAlone: boolean;
  startsRepeat: boolean;
  endsRepeat: boolean;
  repeatTimes: number;
  ending: TabEnding | null;
  readonly endsDouble: boolean;
}

function tabBar(drawn: DrawnBar, content: BarContent, marks: Annotations, isAlone: boolean): TabBar {
  for (const stray of content.strays) {
    const near = content.moments.findLast(({ column }) => column <= stray.column) ?? content.moments[0] ?? null;
    addText(marks.wordsAbove, near, stray.text);
  }
  return {
    moments: content.moments,
    columns: content.moments.map(({ column }) => column),
    width: content.width - (drawn.endsRepeat ? 1 : 0),
    marks,
    line: drawn.cells.find((cell) => cell !== null)?.line,
    isOpened: drawn.isOpened,
    isClosed: drawn.isClosed,
    isAlone,
    startsRepeat: drawn.startsRepeat,
    endsRepeat: drawn.endsRepeat,
    repeatTimes: 2,
    ending: null,
    endsDouble: drawn.endsDouble,
  };
}

/** What stands after the last bar of a system: how many times it is played, or words. */
function readTails(strings: readonly StringLine[], marks: Annotations | undefined, log: TabLog): void {
  for (const { tail, line } of strings) {
    const times = timesOf(tail);
    if (tail === '' || marks === undefined) continue;
    if (times !== null) marks.times = times;
    else {
      addText(marks.wordsAbove, null, tail);
      log.add('kept-as-words', 'note', `“${tail}” was kept as words.`, line, line.text.lastIndexOf(tail));
    }
  }
}

/** Gives how many times to the repeat that it belongs to: the next one that ends in the system, else the system is one. */
function applyTimes(bars: readonly TabBar[], log: TabLog): void {
  bars.forEach(({ marks }, index) => {
    if (marks.times === null) return;
    const end = bars.slice(index).find(({ endsRepeat }) => endsRepeat);
    if (end !== undefined) end.repeatTimes = marks.times;
    else if (marks.times > 1) repeatAll(bars, marks.times, log);
  });
}

function repeatAll(bars: readonly TabBar[], times: number, log: TabLog): void {
  const first = bars[0];
  const last = bars.at(-1);
  if (first === undefined || last === undefined) return;
  first.startsRepeat = true;
  last.endsRepeat = true;
  last.repeatTimes = times;
  log.add(
    'value-repaired',
    'note',
    `“x${times}” stands without repeat signs; the whole system was read as played ${times} times.`,
    first.line,
  );
}

/** Gives each bar its ending; numbers that are none are words. */
function applyEndings(bars: readonly TabBar[], contents: readonly BarContent[], log: TabLog): void {
  const endings = endingsOfBars(
    bars.map(({ marks, endsRepeat }, index) => ({
      sign: marks.ending,
      endsRepeat,
      textFrom: contents[index]?.textFrom ?? 0,
    })),
  );
  bars.forEach((bar, index) => {
    bar.ending = endings?.[index] ?? null;
    const said = bar.marks.ending;
    if (endings !== null || said === null) return;
    addText(bar.marks.wordsAbove, null, said.text);
    log.add('kept-as-words', 'note', `“${said.text}” was kept as words.`, bar.line);
  });
}

/** What each bar of a system holds; the sign that a bar is like the one before it is written out. */
function contentsOf(drawn: readonly DrawnBar[], states: readonly StringState[], log: TabLog): BarContent[] {
  const contents: BarContent[] = [];
  for (const bar of drawn) {
    const before = contents.at(-1);
    if (before === undefined || !isSameAgain(bar)) contents.push(contentOf(bar, states, log));
    else {
      contents.push(sameAgain(bar, before, drawn[contents.length - 1]));
      const line = bar.cells.find((cell) => cell?.text.includes('%') === true)?.line;
      log.add('value-repaired', 'note', 'A “%” stands for the bar before it; that was written out again.', line);
    }
  }
  return contents;
}

/** The bars of one system. What each string carries from bar to bar goes on in `states`. */
export function tabBars(
  system: RawSystem,
  rows: readonly (StringLine | null)[],
  states: readonly StringState[],
  log: TabLog,
): TabBar[] {
  const drawn = barsOfSystem(rows, log);
  const contents = contentsOf(drawn, states, log);
  const marks = annotate(contents, system, log);
  readTails(system.strings, marks.at(-1), log);
  const bars = drawn.flatMap((bar, index) => {
    const content = contents[index];
    const said = marks[index];
    return content === undefined || said === undefined ? [] : [tabBar(bar, content, said, drawn.length === 1)];
  });
  applyTimes(bars, log);
  applyEndings(bars, contents, log);
  return bars;
}

function mergedMarks(a: Annotations, b: Annotations): Annotations {
  return {
    chords: new Map([...b.chords, ...a.chords]),
    wordsAbove: new Map([...b.wordsAbove, ...a.wordsAbove]),
    wordsBelow: new Map([...b.wordsBelow, ...a.wordsBelow]),
    lyrics: new Map([...a.lyrics, ...b.lyrics]),
    palmMuted: new Set([...a.palmMuted, ...b.palmMuted]),
    lettingRing: new Set([...a.lettingRing, ...b.lettingRing]),
    steps: [...a.steps, ...b.steps],
    sections: [...a.sections, ...b.sections],
    meterText: a.meterText ?? b.meterText,
    times: a.times ?? b.times,
    ending: a.ending ?? b.ending,
  };
}

/** Two pieces of one bar that was broken off at the end of a system. */
function joined(a: TabBar, b: TabBar): TabBar {
  return {
    ...b,
    moments: [...a.moments, ...b.moments],
    columns: [...a.columns, ...b.columns.map((column) => column + a.width)],
    width: a.width + b.width,
    marks: mergedMarks(a.marks, b.marks),
    line: a.line,
    isOpened: a.isOpened,
    isAlone: a.isAlone && b.isAlone,
    startsRepeat: a.startsRepeat,
  };
}

/** All bars in order; one without a bar line at its end goes on in the next system if that begins without one. */
export function joinSystems(systems: readonly (readonly TabBar[])[]): TabBar[] {
  const bars: TabBar[] = [];
  for (const system of systems) {
    const last = bars.at(-1);
    const [first, ...rest] = system;
    if (first === undefined) continue;
    if (last !== undefined && !last.isClosed && !first.isOpened) bars[bars.length - 1] = joined(last, first);
    else bars.push(first);
    bars.push(...rest);
  }
  return bars;
}
