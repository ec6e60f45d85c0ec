import { addText, noAnnotations, type Annotations } from './annotations.ts';
import { countedSteps } from './count-line.ts';
import { endingsOf } from './endings.ts';
import { meterOfText } from './meter.ts';
import type { BarContent, Moment } from './moments.ts';
import { letterSigns, stemLines, stemSigns, stepsOf, tellsRhythm, type RhythmSign } from './rhythm-letters.ts';
import { isRule } from './string-line.ts';
import type { TabLog } from './tab-log.ts';
import type { TextLine } from './text-line.ts';
import { chordsOf, remarksOf, sectionOf, spansOf, timesOf, wordsOf, type Span } from './words-around.ts';

type Side = 'above' | 'below';

/** The moment nearest to a column; of equals the earlier. The moments run from left to right. */
function nearestMoment(moments: readonly Moment[], column: number): Moment | null {
  let low = 0;
  let high = moments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((moments[middle]?.textColumn ?? 0) < column) low = middle + 1;
    else high = middle;
  }
  const before = moments[low - 1];
  const after = moments[low];
  if (before === undefined || after === undefined) return before ?? after ?? null;
  return after.textColumn - column < column - before.textColumn ? after : before;
}

/** Sets what stands above and below a system to its bars. */
class Annotator {
  readonly marks: Annotations[];
  private readonly bars: readonly BarContent[];
  private readonly moments: readonly Moment[];
  private readonly log: TabLog;

  constructor(bars: readonly BarContent[], log: TabLog) {
    this.bars = bars;
    this.moments = bars.flatMap(({ moments }) => moments);
    this.marks = bars.map(noAnnotations);
    this.log = log;
  }

  /** The bar over or under which a column stands: the first or the last one where it is beside the system. */
  private barAt(column: number): number {
    const found = this.bars.findIndex(({ textTo }) => column < textTo + 1);
    return found < 0 ? this.bars.length - 1 : found;
  }

  private at(column: number): { readonly marks: Annotations; readonly moment: Moment | null } | null {
    const index = this.barAt(column);
    const marks = this.marks[index];
    const moment = nearestMoment(this.bars[index]?.moments ?? [], column);
    return marks === undefined ? null : { marks, moment };
  }

  /** Takes a line of rhythm letters, or the stems that the lines begin with; gives the lines that are left. */
  takeRhythm(lines: readonly TextLine[]): readonly TextLine[] {
    const stems = stemLines(lines);
    if (stems.length > 0 && this.addSteps(stemSigns(stems))) return lines.slice(stems.length);
    const counted = lines.find((line) => this.addCounts(line));
    if (counted !== undefined) return lines.filter((line) => line !== counted);
    const letters = lines.find((line) => {
      const signs = letterSigns(line);
      return signs !== null && this.addSteps(signs);
    });
    return lines.filter((line) => line !== letters);
  }

  private addCounts(line: TextLine): boolean {
    const steps = countedSteps(line, this.bars);
    steps?.forEach((own, index) => this.marks[index]?.steps.push(...own));
    return steps !== null;
  }

  private addSteps(signs: readonly RhythmSign[]): boolean {
    const steps = stepsOf(signs, this.moments);
    if (!tellsRhythm(steps, this.moments)) return false;
    for (const step of steps) {
      const column = step.moment?.textColumn ?? step.column;
      this.marks[this.barAt(column)]?.steps.push({ ...step, column });
    }
    return true;
  }

  takeWords(line: TextLine, side: Side, follows: boolean): void {
    if (isRule(line)) return;
    const section = sectionOf(line);
    if (section !== null) this.addSection(section, line);
    else if (side === 'above' && this.takeEndings(line)) return;
    else if (!this.takeMeter(line) && !this.takeTimes(line) && !this.takeChords(line) && !this.takeSpans(line)) {
      if (isLyrics(line, side, follows)) this.addLyrics(line);
      else this.keepWords(line, side);
    }
  }

  /** A line that touches no system: a section, else words at the start of the next system. */
  takeParagraph(line: TextLine): void {
    const section = sectionOf(line);
    const first = this.marks[0];
    if (isRule(line) || first === undefined) return;
    if (section !== null) this.addSection(section, line);
    else {
      addText(first.wordsAbove, null, line.text.trim());
      this.reportWords(line.text.trim(), line);
    }
  }

  private addSection({ name, rest }: { readonly name: string; readonly rest: string }, line: TextLine): void {
    const first = this.marks[0];
    const times = timesOf(rest);
    if (first === undefined) return;
    first.sections.push(name);
    if (times !== null) first.times = times;
    else if (rest !== '') {
      addText(first.wordsAbove, null, rest);
      this.reportWords(rest, line);
    }
  }

  private takeMeter(line: TextLine): boolean {
    const [first] = this.marks;
    if (meterOfText(line.text) === null || first === undefined) return false;
    first.meterText = line.text.trim();
    return true;
  }

  private takeEndings(line: TextLine): boolean {
    const endings = endingsOf(line);
    // A number stands over the bar line or just before it.
    const places = endings?.map(({ column }) => this.barAt(column + 2)) ?? [];
    if (endings === null || new Set(places).size < places.length) return false;
    endings.forEach((ending, index) => {
      const marks = this.marks[places[index] ?? 0];
      if (marks !== undefined) marks.ending = ending;
    });
    return true;
  }

  private takeTimes(line: TextLine): boolean {
    const whole = timesOf(line.text);
    const column = line.text.search(/\S/);
    const place = this.at(column);
    if (whole === null || place === null) return false;
    place.marks.times = whole;
    return true;
  }

  private takeChords(line: TextLine): boolean {
    const chords = chordsOf(line);
    for (const { column, text } of chords ?? []) {
      const place = this.at(column);
      if (place !== null) addText(place.marks.chords, place.moment, text);
    }
    for (const { column, text } of chords === null ? [] : remarksOf(line)) {
      const place = this.at(column);
      if (place !== null) addText(place.marks.wordsAbove, place.moment, text);
      this.reportWords(text, line, column);
    }
    return chords !== null;
  }

  private takeSpans(line: TextLine): boolean {
    const spans = spansOf(line);
    for (const span of spans ?? []) this.addSpan(span);
    return spans !== null;
  }

  private addSpan({ from, to, kind }: Span): void {
    this.bars.forEach(({ moments }, index) => {
      const marks = this.marks[index];
      const marked = kind === 'palmMute' ? marks?.palmMuted : marks?.lettingRing;
      for (const moment of moments) if (moment.textColumn >= from && moment.textColumn <= to) marked?.add(moment);
    });
  }

  private addLyrics(line: TextLine): void {
    for (const { column, text } of wordsOf(line)) {
      const near = nearestMoment(this.moments, column);
      const marks = near === null ? undefined : this.marks[this.barAt(near.textColumn)];
      if (marks === undefined) {
        this.keepWords(line, 'below');
        return;
      }
      addText(marks.lyrics, near, text);
    }
  }

  private keepWords(line: TextLine, side: Side): void {
    const text = line.text.trim();
    const place = this.at(line.text.search(/\S/));
    const words = side === 'above' ? place?.marks.wordsAbove : place?.marks.wordsBelow;
    if (words !== undefined) addText(words, place?.moment ?? null, text);
    this.reportWords(text, line);
  }

  private reportWords(text: string, line: TextLine, column = Math.max(0, line.text.search(/\S/))): void {
    this.log.add('kept-as-words', 'note', `“${text}” was kept as words.`, line, column);
  }
}

/** Whether a line is sung: two words or more without digits, below the strings, or above them next to chords. */
function isLyrics({ text }: TextLine, side: Side, followsChords: boolean): boolean {
  const words = text.match(/[\p{L}’'.,!?;-]+/gu) ?? [];
  const isText = words.length >= 2 && !/[\d:=*/\\<>|[\]()]/.test(text);
  return isText && (side === 'below' || followsChords);
}

/** The lines around a system. */
interface Around {
  readonly paragraphs: readonly TextLine[];
  readonly above: readonly TextLine[];
  readonly below: readonly TextLine[];
}

/** What stands above and below each bar of a system. Lines that are not understood are kept as words and reported. */
export function annotate(
  bars: readonly BarContent[],
  { above, below, paragraphs }: Around,
  log: TabLog,
): Annotations[] {
  const annotator = new Annotator(bars, log);
  for (const line of paragraphs) annotator.takeParagraph(line);
  const isSaid = ({ text }: TextLine): boolean => text.trim() !== '';
  const left = annotator.takeRhythm(above.filter(isSaid).toReversed()).toReversed();
  const hasRhythm = annotator.marks.some(({ steps }) => steps.length > 0);
  left.forEach((line, index) => {
    const before = left[index - 1];
    annotator.takeWords(line, 'above', before !== undefined && chordsOf(before) !== null);
  });
  const under = below.filter(isSaid);
  for (const line of hasRhythm ? under : annotator.takeRhythm(under)) annotator.takeWords(line, 'below', false);
  return annotator.marks;
}
