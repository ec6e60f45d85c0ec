import { fraction } from '../../basis/fraction.ts';
import type { Ornament } from '../../score/ornaments.ts';
import type { Jump, Technique } from '../../score/score.ts';
import type {
  WrittenBar,
  WrittenDirection,
  WrittenEvent,
  WrittenHead,
  WrittenSound,
  WrittenStaff,
} from '../../score/written.ts';
import { beamsOfBar } from '../musicxml-writer/beaming.ts';
import { hitHeads } from '../musicxml-writer/hit-heads.ts';
import { startOf } from '../musicxml-writer/write-measure.ts';
import { BarLetters, eighthsText, valueText } from './abc-letters.ts';

const decorationOf: Readonly<Partial<Record<Technique, string>>> = {
  staccato: '.',
  accent: '!>!',
  strongAccent: '!^!',
  tenuto: '!tenuto!',
  fermata: '!fermata!',
  arpeggio: '!arpeggio!',
  strumUp: 'u',
  strumDown: 'v',
};

/** **Source** ABC 2.1, decorations, from memory. */
const decorationOfOrnament: Readonly<Partial<Record<Ornament['kind'], string>>> = {
  trill: '!trill!',
  mordent: '!lowermordent!',
  invertedMordent: '!uppermordent!',
  turn: '!turn!',
  invertedTurn: '!invertedturn!',
};
const nameOfOrnament: Readonly<Partial<Record<Ornament['kind'], string>>> = {
  delayedTurn: 'delayed turns',
  delayedInvertedTurn: 'delayed inverted turns',
  tremolo: 'tremolos',
};

/** What a sign without a place in ABC is called. */
const nameOf: Readonly<Partial<Record<Technique, string>>> = {
  letRing: 'let ring',
  hammerOn: 'hammer-ons',
  pullOff: 'pull-offs',
  slide: 'slides',
  slideIn: 'slides into notes',
  slideInFromAbove: 'slides into notes from above',
  slideOut: 'slides out of notes',
  slideOutUpwards: 'slides out of notes upwards',
  tap: 'tapping',
  bend: 'bends',
  naturalHarmonic: 'natural harmonics',
  artificialHarmonic: 'artificial harmonics',
  palmMute: 'palm muting',
  arpeggioDown: 'arpeggios downwards',
  barre: 'barrés',
};

const decorationOfJump: Readonly<Record<Jump, string>> = {
  segno: '!segno!',
  coda: '!coda!',
  fine: '!fine!',
  dalSegno: '!D.S.!',
  daCapo: '!D.C.!',
  toCoda: '!dacoda!',
};

const quoted = (text: string): string =>
  `"${text
    .replace(/["%\r\n]/g, ' ')
    .replaceAll('♯', '#')
    .replaceAll('♭', 'b')}"`;

const landings: ReadonlySet<Jump> = new Set<Jump>(['segno', 'coda']);

/** How many events from here on share one ratio, up to the end of the bracket; 0 where no run begins. */
function runFrom(events: readonly WrittenEvent[], index: number): number {
  const ratio = events[index]?.value.tuplet ?? null;
  const before = events[index - 1];
  const isSame = (event: WrittenEvent | undefined): boolean =>
    ratio !== null && event?.value.tuplet?.actual === ratio.actual && event.value.tuplet.normal === ratio.normal;
  if (ratio === null) return 0;
  if (isSame(before) && before?.tupletEdge !== 'stop' && events[index]?.tupletEdge !== 'start') return 0;
  let end = index;
  while (events[end]?.tupletEdge !== 'stop' && isSame(events[end + 1]) && events[end + 1]?.tupletEdge !== 'start')
    end += 1;
  return end - index + 1;
}

/** Writes the bars of one staff. */
export class AbcBarWriter {
  private readonly hairpins = new Map<number, string>();
  private readonly ticksPerQuarter: number;
  private readonly staff: WrittenStaff;
  private readonly isFirst: boolean;
  private readonly leftOut: Set<string>;

  constructor(ticksPerQuarter: number, staff: WrittenStaff, isFirst: boolean, leftOut: Set<string>) {
    this.ticksPerQuarter = ticksPerQuarter;
    this.staff = staff;
    this.isFirst = isFirst;
    this.leftOut = leftOut;
  }

  private get octaves(): number {
    return this.staff.clef.sign === 'percussion' ? 0 : -this.staff.clef.octave;
  }

  bar(bar: WrittenBar, events: readonly WrittenEvent[], index: number): string {
    const shared = this.isFirst ? bar.directions : [];
    const directions = [...shared, ...(this.staff.directions[index] ?? [])];
    const letters = new BarLetters(bar.key);
    const texts = events.map((event, place) => {
      const end = place === events.length - 1 ? Infinity : event.onsetTicks + event.lengthTicks;
      const here = directions.filter(
        ({ onsetTicks }) => onsetTicks < end && (place === 0 || onsetTicks >= event.onsetTicks),
      );
      const isOpening = index === 0 && place === 0;
      const before = here.map((direction) => this.direction(direction, isOpening)).join('');
      return `${before}${this.jumps(bar, place, events.length)}${this.event(events, place, bar, letters)}`;
    });
    const beams = beamsOfBar(events, bar.meter, this.ticksPerQuarter, startOf(bar, index, this.ticksPerQuarter));
    const goesOn = (event: WrittenEvent | undefined): boolean =>
      event !== undefined && ['begin', 'continue'].includes(beams.get(event)?.[0] ?? '');
    return texts.map((text, place) => (place > 0 && !goesOn(events[place - 1]) ? ` ${text}` : text)).join('');
  }

  private jumps({ signs }: WrittenBar, place: number, count: number): string {
    if (!this.isFirst) return '';
    const here = signs.jumps.filter((jump) => (landings.has(jump) ? place === 0 : place === count - 1));
    return here.map((jump) => decorationOfJump[jump]).join('');
  }

  private direction(direction: WrittenDirection, isOpening: boolean): string {
    if (direction.kind === 'tempo') {
      if (isOpening && direction.onsetTicks === 0) return '';
      return `[Q:1/4=${Number(direction.quartersPerMinute.toFixed(3))}]`;
    }
    if (direction.kind === 'words') return quoted(`^${direction.text}`);
    if (direction.kind === 'chordSymbol') return quoted(direction.symbol.text);
    if (direction.kind === 'level') return `!${direction.level}!`;
    if (direction.kind === 'accent') return `!${direction.sign}!`;
    if (direction.kind === 'hairpinStart') {
      const sign = direction.direction === 'louder' ? '<' : '>';
      this.hairpins.set(direction.number, sign);
      return `!${sign}(!`;
    }
    if (direction.kind === 'hairpinStop') return `!${this.hairpins.get(direction.number) ?? '<'})!`;
    this.leftOut.add('swing');
    return '';
  }

  private letter(sound: WrittenSound, letters: BarLetters): string {
    if (sound.kind === 'pitched') return letters.of(sound.pitch, this.octaves);
    const { step, octave } = hitHeads[sound.hit];
    this.leftOut.add('what each hit strikes');
    return letters.of({ step, alter: 0, octave }, 0);
  }

  private event(events: readonly WrittenEvent[], place: number, bar: WrittenBar, letters: BarLetters): string {
    const event = events[place];
    if (event === undefined) return '';
    const run = runFrom(events, place);
    const { tuplet } = event.value;
    const opening = run === 0 || tuplet === null ? '' : `(${tuplet.actual}:${tuplet.normal}:${run}`;
    if (event.heads.length === 0) return `${opening}${this.rest(event, bar)}`;
    const details = event.heads.flatMap((head) => head.details ?? []);
    const slurs = details.flatMap(({ joins }) => joins.filter(({ kind }) => kind === 'slur'));
    const starts = '('.repeat(slurs.filter(({ edge }) => edge === 'start').length);
    const stops = ')'.repeat(slurs.filter(({ edge }) => edge === 'stop').length);
    const graces = this.graces(event, letters);
    this.tellPlaying(event);
    const grace = graces === '' ? '' : `{${event.graces[0]?.hasSlash === true ? '/' : ''}${graces}}`;
    return `${opening}${starts}${grace}${this.decorations(event)}${this.heads(event, letters)}${stops}`;
  }

  /** Notes what is said of the hands that ABC does not say. */
  private tellPlaying({ heads, graces }: WrittenEvent): void {
    for (const { kind } of [...graces, ...heads.map(({ details }) => details)].flatMap((owner) => owner?.joins ?? []))
      if (kind !== 'slur') this.leftOut.add(nameOf[kind] ?? kind);
    const details = heads.flatMap((head) => head.details ?? []);
    if (details.some(({ bends }) => bends.length > 0)) this.leftOut.add('how far strings are bent');
    if (details.some(({ pluckingFinger }) => pluckingFinger !== null)) this.leftOut.add('letters of the plucking hand');
    const hasFingers = details.some(({ frettingFinger }) => frettingFinger !== null);
    if (hasFingers && heads.length > 1) this.leftOut.add('fingers of the fretting hand within chords');
  }

  /** The letters of grace notes, those that are struck together in brackets. */
  private graces({ graces }: WrittenEvent, letters: BarLetters): string {
    const groups: string[][] = [];
    for (const { sound, isChordMember } of graces) {
      const last = isChordMember === true ? groups.at(-1) : undefined;
      if (last === undefined) groups.push([this.letter(sound, letters)]);
      else last.push(this.letter(sound, letters));
    }
    return groups.map((group) => (group.length > 1 ? `[${group.join('')}]` : group.join(''))).join('');
  }

  private rest(event: WrittenEvent, { meter, lengthTicks }: WrittenBar): string {
    if (!event.isBarRest) return `z${valueText(event.value)}`;
    const beats = meter.beats.reduce((sum, count) => sum + count, 0);
    const isFull = lengthTicks * meter.beatUnit === beats * 4 * this.ticksPerQuarter;
    return isFull ? 'Z' : `z${eighthsText(fraction(2 * lengthTicks, this.ticksPerQuarter))}`;
  }

  private decorations({ heads }: WrittenEvent): string {
    const techniques = new Set(heads.flatMap(({ details }) => details?.techniques ?? []));
    const [only, ...others] = heads;
    const finger = others.length === 0 ? (only?.details?.frettingFinger ?? null) : null;
    const signs = [...techniques]
      .map((technique) => {
        const sign = decorationOf[technique];
        if (sign === undefined) this.leftOut.add(nameOf[technique] ?? technique);
        return sign ?? '';
      })
      .join('');
    return `${finger === null ? '' : `!${finger}!`}${signs}${this.ornaments(heads)}`;
  }

  private ornaments(heads: readonly WrittenHead[]): string {
    const all = heads.flatMap(({ details }) => details?.ornaments ?? []);
    if (all.some((ornament) => 'alterAbove' in ornament || 'alterBelow' in ornament))
      this.leftOut.add('accidentals of ornaments');
    const signs = [...new Set(all.map(({ kind }) => kind))].map((kind) => {
      const sign = decorationOfOrnament[kind];
      if (sign === undefined) this.leftOut.add(nameOfOrnament[kind] ?? kind);
      return sign ?? '';
    });
    return signs.join('');
  }

  private heads({ heads, value }: WrittenEvent, letters: BarLetters): string {
    const length = valueText(value);
    const note = (head: WrittenHead, ownLength: string): string =>
      `${this.letter(head.sound, letters)}${ownLength}${head.isTiedOn ? '-' : ''}`;
    const [only, ...others] = heads;
    if (only === undefined) return '';
    return others.length === 0 ? note(only, length) : `[${heads.map((head) => note(head, '')).join('')}]${length}`;
  }
}
