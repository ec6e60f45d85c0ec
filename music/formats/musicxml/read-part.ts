import { partId } from '../../basis/ids.ts';
import { pitchOfMidi } from '../../basis/pitch.ts';
import { limits } from '../limits.ts';
import { childOf, childrenOf, childText, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { ElementCensus } from './element-census.ts';
import { soundingTuning, standardTuning } from './guitar.ts';
import type { IssueLog } from './issue-log.ts';
import { settleJoins } from './joins.ts';
import { emptyPart, staffKindOf, type RawBar, type RawMoment, type RawPart } from './raw-part.ts';
import { printedQuarters } from './printed-value.ts';
import { readAttributes, type ReportAttribute } from './read-attributes.ts';
import { plainOpening, readBarline, type BarOpening } from './read-barline.ts';
import { chordSymbolOf } from './read-harmony.ts';
import { readDirection, readSound } from './read-direction.ts';
import { readDynamics } from './read-dynamics.ts';
import { fingerboardOf, type RawNotations } from './read-notations.ts';
import { blankNote, headOf, readNote, type RawNote } from './read-note.ts';
import { applyTextSpans } from './text-spans.ts';
import { isDivisions, type TimeGrid } from './time-grid.ts';

/** The first divisions that any part tells; a part that tells none counts in them. */
interface ToldDivisions {
  first: number | null;
}

/** What the parts of a score are read with. */
interface Reading {
  readonly grid: TimeGrid;
  readonly log: IssueLog;
  readonly census: ElementCensus;
  readonly told: ToldDivisions;
}

/** Walks through one part, moving a cursor over notes, backup and forward. */
class PartReader {
  private readonly part: RawPart;
  private readonly grid: TimeGrid;
  private readonly log: IssueLog;
  private readonly census: ElementCensus;
  private readonly told: ToldDivisions;
  private divisions: number | null = null;
  private cursorTicks = 0;
  private chordTicks = 0;
  private barIndex = 0;
  private bar!: RawBar;
  /** What stands on the right side of this bar for the next one. */
  private nextOpening = plainOpening();
  private readonly note = blankNote();

  constructor(part: RawPart, { grid, log, census, told }: Reading) {
    this.part = part;
    this.grid = grid;
    this.log = log;
    this.census = census;
    this.told = told;
  }

  readMeasure(measure: XmlElement): void {
    this.barIndex = this.part.bars.length;
    this.cursorTicks = 0;
    this.chordTicks = 0;
    this.bar = rawBarOf(measure, this.barIndex, this.nextOpening);
    this.nextOpening = plainOpening();
    this.part.bars.push(this.bar);
    for (const node of measure.children)
      if (typeof node !== 'string' && node.kind === 'element') this.readElement(node);
  }

  private see(element: XmlElement): void {
    this.census.see(element, () => ({ partName: this.part.name, ...this.moment() }));
  }

  private readElement(element: XmlElement): void {
    if (element.name === 'note') {
      this.readNote(element);
      return;
    }
    this.see(element);
    if (element.name === 'backup') this.move(element, -1);
    else if (element.name === 'forward') this.move(element, 1);
    else if (element.name === 'attributes') this.readAttributes(element);
    else if (element.name === 'direction') this.readDirection(element);
    else if (element.name === 'barline') this.readBarline(element);
    else if (element.name === 'harmony') this.readHarmony(element);
    else if (element.name === 'sound') this.readSound(element);
  }

  private readBarline(barline: XmlElement): void {
    const { bar } = this;
    const location = barline.attributes['location'] ?? 'right';
    const ending = location === 'left' ? this.part.bars[this.barIndex - 1] : bar;
    readBarline(barline, bar, { ending, beginning: location === 'right' ? this.nextOpening : bar });
    if (location === 'middle' && childOf(barline, 'repeat') !== undefined)
      this.report('value-repaired', 'A repeat sign stands within the bar; it was taken for one at the bar’s edge.');
  }

  /** Tells of something that is left out, at the present moment. */
  readonly reportLeftOut = (detail: string): void => {
    this.report('element-left-out', detail);
  };

  private readSound(sound: XmlElement): void {
    const { part, bar, reportLeftOut: report } = this;
    readSound(sound, { part, bar, soundMoment: this.offsetMoment(childOf(sound, 'offset')), report });
  }

  private readDirection(direction: XmlElement): void {
    const { part, bar, reportLeftOut: report } = this;
    const [moment, soundMoment] = [this.directionMoment(direction), this.soundMoment(direction)];
    readDirection(direction, { part, bar, moment, soundMoment, report });
  }

  private readHarmony(harmony: XmlElement): void {
    const symbol = chordSymbolOf(harmony);
    if (symbol !== null) this.part.chordSymbols.push({ ...symbol, ...this.directionMoment(harmony) });
  }

  private moment(offsetTicks = this.cursorTicks): RawMoment {
    return { barIndex: this.barIndex, offsetTicks };
  }

  /** The moment so far from the cursor as the offsets say. */
  private offsetMoment(...offsets: readonly (XmlElement | undefined)[]): RawMoment {
    const divisions = offsets.reduce((sum, offset) => sum + (numberOf(offset) ?? 0), 0);
    const ticks = this.cursorTicks + Math.round((divisions * this.grid.ticksPerQuarter) / (this.divisions ?? 1));
    return this.moment(Math.max(0, ticks));
  }

  private directionMoment(direction: XmlElement): RawMoment {
    return this.offsetMoment(childOf(direction, 'offset'));
  }

  /** Where a direction is heard: its offset moves the print alone unless it says otherwise; that of its sound moves what is heard. **Source** MusicXML 4.0, offset, sound. */
  private soundMoment(direction: XmlElement): RawMoment {
    const printed = childOf(direction, 'offset');
    const own = childOf(childOf(direction, 'sound'), 'offset');
    return this.offsetMoment(printed?.attributes['sound'] === 'yes' ? printed : undefined, own);
  }

  private report(code: Parameters<IssueLog['add']>[0], detail: string, offsetTicks = this.cursorTicks): void {
    this.log.add(code, 'warning', detail, { partName: this.part.name, ...this.moment(offsetTicks) });
  }

  private readAttributes(attributes: XmlElement): void {
    const written = childOf(attributes, 'divisions');
    const divisions = numberOf(written);
    if (divisions !== null && isDivisions(divisions)) {
      this.divisions = divisions;
      this.told.first ??= divisions;
    } else if (written !== undefined)
      this.report('value-repaired', `The divisions “${textOf(written)}” are no positive number and were left out.`);
    const { part, bar } = this;
    const report: ReportAttribute = (severity, code, detail) => {
      this.log.add(code, severity, detail, { partName: part.name, ...this.moment() });
    };
    readAttributes(attributes, { part, bar, moment: this.moment(), report });
  }

  private ticksOf(text: string | null): number | null {
    const duration = text === null || text === '' ? NaN : Number(text);
    if (!Number.isFinite(duration) || duration < 0) return null;
    if (this.divisions === null) {
      const { first } = this.told;
      this.divisions = first ?? 1;
      const taken = first === null ? '1 was taken' : `${first} were taken, as in the parts before it`;
      this.report('value-repaired', `The part does not say how many divisions a quarter note has; ${taken}.`);
    }
    const exact = (duration * this.grid.ticksPerQuarter) / this.divisions;
    return exact > limits.durationQuarters * this.grid.ticksPerQuarter ? null : Math.round(exact);
  }

  private move(element: XmlElement, direction: 1 | -1): void {
    const text = childText(element, 'duration');
    const ticks = this.ticksOf(text);
    if (ticks === null) {
      this.report('duration-missing', `A ${element.name} has no usable duration (“${text}”) and was left out.`);
      return;
    }
    this.cursorTicks += direction * ticks;
    if (this.cursorTicks < 0) {
      this.cursorTicks = 0;
      this.report(
        'value-repaired',
        'A backup goes beyond the start of the bar; the music after it begins with the bar.',
      );
    }
    if (direction === 1) this.bar.contentTicks = Math.max(this.bar.contentTicks, this.cursorTicks);
  }

  private readNote(element: XmlElement): void {
    const { note } = this;
    readNote(element, note);
    if (note.others !== null) for (const other of note.others) this.see(other);
    const lengthTicks = note.isGrace ? 0 : this.lengthOf(element, note);
    if (lengthTicks === null) return;
    const offsetTicks = note.isChordMember && !note.isGrace ? this.chordTicks : this.cursorTicks;
    if (!note.isChordMember && !note.isGrace) {
      this.chordTicks = this.cursorTicks;
      this.cursorTicks += lengthTicks;
    }
    if (!note.isBarRest) this.bar.contentTicks = Math.max(this.bar.contentTicks, this.cursorTicks);
    else if (note.duration !== null) this.bar.barRestTicks = Math.max(this.bar.barRestTicks, this.cursorTicks);
    this.keep(element, note, offsetTicks, lengthTicks);
  }

  private lengthOf(element: XmlElement, note: RawNote): number | null {
    const ticks = this.ticksOf(note.duration);
    if (ticks !== null && ticks > 0) return ticks;
    const what = note.isRest ? 'rest' : 'note';
    const printedTicks = ticks === null ? Math.round((printedQuarters(element) ?? 0) * this.grid.ticksPerQuarter) : 0;
    if (printedTicks > 0) {
      note.isBarRest ||= note.isRest && childText(element, 'type') === 'whole';
      this.report('value-repaired', `A ${what} has no usable duration; its printed value was taken.`);
      return printedTicks;
    }
    this.report('duration-missing', `A ${what} has no usable duration (“${note.duration ?? ''}”) and was left out.`);
    return null;
  }

  /** A fret number on a string is a pitch, unless its head says that it is a hit. */
  private takePitchFromFret(note: RawNote, offsetTicks: number): void {
    const { part } = this;
    const isTold = !note.isUnpitched || (staffKindOf(part, note.staff) === 'tablature' && note.notehead === '');
    const place = note.notations === null ? null : fingerboardOf(note.notations);
    const tuning = soundingTuning(part.strings?.tuning ?? part.tuning ?? standardTuning);
    const open = place === null ? undefined : tuning[place.string - 1];
    if (!isTold || place === null || open === undefined) return;
    note.pitch = pitchOfMidi(open + place.fret, 0);
    note.isUnpitched = false;
    this.report('value-repaired', 'A note has no pitch; its string and fret were taken for it.', offsetTicks);
  }

  private keepNotations(note: RawNote, notations: RawNotations, offsetTicks: number, lengthTicks: number): void {
    for (const dynamics of notations.dynamics)
      readDynamics(dynamics, this.part, { staff: note.staff, placement: undefined, ...this.moment(offsetTicks) });
    for (const { edge, number, ratio } of note.isGrace ? [] : notations.tuplets) {
      const moment = this.moment(edge === 'start' ? offsetTicks : offsetTicks + lengthTicks);
      const noteRatio = note.ratio ?? { actual: 1, normal: 1 };
      this.part.tupletEdges.push({ edge, number, ratio, noteRatio, staff: note.staff, voice: note.voice, ...moment });
    }
  }

  private keep(element: XmlElement, note: RawNote, offsetTicks: number, lengthTicks: number): void {
    const { barIndex } = this;
    this.part.staffCount = Math.max(this.part.staffCount, note.staff);
    if (note.notations !== null) this.keepNotations(note, note.notations, offsetTicks, lengthTicks);
    if (note.isRest) {
      if (!note.isCue && !note.isGrace)
        this.part.rests.push({ barIndex, offsetTicks, lengthTicks, staff: note.staff, voice: note.voice });
      return;
    }
    if (note.pitch === null) this.takePitchFromFret(note, offsetTicks);
    if (note.pitch === null && !note.isUnpitched) {
      this.report('pitch-missing', 'A note has no usable pitch and was left out.', offsetTicks);
      return;
    }
    const passes = element.attributes['time-only'];
    if (passes !== undefined)
      this.report('value-repaired', `A note is for pass ${passes} only; it was taken for all passes.`, offsetTicks);
    const head = headOf(element, note, this.part, { barIndex, offsetTicks, lengthTicks });
    this.part.heads.push(head);
    if (note.notations !== null) for (const join of note.notations.joins) this.part.joinEdges.push({ head, ...join });
  }
}

const rawBarOf = (measure: XmlElement, index: number, { startsRepeat, endingStart, jumps }: BarOpening): RawBar => ({
  startsRepeat,
  endingStart,
  jumps,
  label: measure.attributes['number'] ?? String(index + 1),
  isImplicit: measure.attributes['implicit'] === 'yes',
  contentTicks: 0,
  barRestTicks: 0,
  meter: null,
  isUnmetered: false,
  key: null,
  meterAfter: null,
  keyAfter: null,
  repeatTimes: 0,
  repeatsAfterJump: false,
  stopsEnding: false,
  rehearsalMark: null,
});

function identityOf(root: XmlElement, part: XmlElement, index: number): Parameters<typeof emptyPart>[0] {
  const id = part.attributes['id'] ?? `P${index + 1}`;
  const list = childOf(root, 'part-list');
  const entry =
    list === undefined
      ? undefined
      : childrenOf(list, 'score-part').find((candidate) => candidate.attributes['id'] === id);
  const instruments = entry === undefined ? [] : childrenOf(entry, 'score-instrument');
  const name = childText(entry, 'part-name');
  const sounds = instruments.flatMap((instrument) => [
    childText(instrument, 'instrument-name'),
    childText(instrument, 'instrument-sound'),
  ]);
  const programs =
    entry === undefined
      ? []
      : childrenOf(entry, 'midi-instrument').map((midi) => Number(childText(midi, 'midi-program')));
  return {
    index,
    id: partId(id),
    name: name === '' ? id : name,
    description: [name, childText(entry, 'part-abbreviation'), ...sounds].join(' · '),
    programs: programs.filter((program) => program > 0),
    instrumentNames: new Map(
      instruments.map((instrument) => [instrument.attributes['id'] ?? '', childText(instrument, 'instrument-name')]),
    ),
  };
}

/** What each part of a partwise score says, in the file's own terms but for time, which is in ticks of the grid. */
export function readParts(root: XmlElement, grid: TimeGrid, log: IssueLog): RawPart[] {
  const census = new ElementCensus();
  const reading: Reading = { grid, log, census, told: { first: null } };
  for (const element of elementsOf(root)) if (element.name !== 'part') census.see(element, () => null);
  const parts = childrenOf(root, 'part').map((element, index) => {
    const part = emptyPart(identityOf(root, element, index));
    const reader = new PartReader(part, reading);
    const measures = childrenOf(element, 'measure');
    for (const measure of measures.slice(0, limits.bars)) reader.readMeasure(measure);
    if (measures.length > limits.bars)
      reader.reportLeftOut(`Of ${measures.length} bars the first ${limits.bars} were read; the others were left out.`);
    applyTextSpans(part);
    settleJoins(part, log);
    return part;
  });
  census.report(log);
  return parts;
}
