import { limits } from '../limits.ts';
import type { AbcBar, AbcChange, AbcEvent, AbcVoice } from './abc-events.ts';
import type { AbcLog } from './abc-log.ts';
import type { AbcScore } from './abc-reader.ts';
import { partOrderOf } from './abc-part-order.ts';
import { copiedBars, type CopyPlace, type SlurIds } from './abc-copied-bars.ts';

/** The bars of a named part; what stands before the first name has the name ''. */
interface Section {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/** A section so often in a row, by a repeat sign where `isFolded`, else written out. */
interface Playing {
  readonly section: Section;
  readonly times: number;
  readonly isFolded: boolean;
}

/** What a rest that stands in for a voice does not have. */
const nothingOf = (): Pick<
  AbcEvent,
  'notes' | 'graces' | 'decorations' | 'chordSymbols' | 'annotations' | 'slurStarts' | 'slurStops' | 'syllables'
> => ({
  notes: [],
  graces: [],
  decorations: [],
  chordSymbols: [],
  annotations: [],
  slurStarts: [],
  slurStops: [],
  syllables: [],
});

const sectionChange = ({ changes }: AbcBar): AbcChange | undefined =>
  changes.findLast(({ section }) => section !== undefined);

/** Where the parts begin, by the voices together. A name in the midst of a bar is taken to stand at the nearest bar line. */
function sectionsOf(voices: readonly AbcVoice[], log: AbcLog): Section[] {
  const starts = new Map<number, string>();
  for (const { bars } of voices)
    for (const [index, bar] of bars.entries()) {
      const change = sectionChange(bar);
      if (change?.section === undefined) continue;
      const events = bar.layers[0] ?? [];
      const isAtEnd = change.eventIndex >= events.length && change.eventIndex > 0;
      const place = events[change.eventIndex];
      if (change.eventIndex > 0 && !isAtEnd)
        log.add(
          'value-repaired',
          'warning',
          `The part “${change.section}” begins within a bar; the whole bar was taken for it.`,
          place?.lineNumber ?? 1,
          place?.column ?? 1,
        );
      starts.set(isAtEnd ? index + 1 : index, change.section.trim());
    }
  const end = Math.max(...voices.map(({ bars }) => bars.length));
  const sorted = [...starts].filter(([from]) => from < end).sort(([a], [b]) => a - b);
  const first = sorted[0]?.[0] ?? end;
  return [
    ...(first > 0 ? [{ name: '', from: 0, to: first }] : []),
    ...sorted.map(([from, name], index) => ({ name, from, to: sorted[index + 1]?.[0] ?? end })),
  ];
}

const repeatsOrEnds = (bar: AbcBar): boolean => bar.startsRepeat || bar.repeatTimes > 0 || bar.endings.length > 0;
const hasRepeats = ({ from, to }: Section, voices: readonly AbcVoice[]): boolean =>
  voices.some(({ bars }) => bars.slice(from, to).some(repeatsOrEnds));

/** Sections that follow themselves become one with a repeat, where they have no repeats of their own. */
function playingsOf(order: readonly Section[], voices: readonly AbcVoice[]): Playing[] {
  const playings: Playing[] = [];
  for (const section of order) {
    const last = playings.at(-1);
    if (last?.section === section) playings[playings.length - 1] = { ...last, times: last.times + 1 };
    else playings.push({ section, times: 1, isFolded: false });
  }
  return playings.map((playing) => ({
    ...playing,
    isFolded: playing.times > 1 && playing.times <= 99 && !hasRepeats(playing.section, voices),
  }));
}

/** A section once more, with what is in force there said again and its repeats closed in themselves. */
function placed(voice: AbcVoice, section: Section, place: CopyPlace): AbcBar[] {
  const bars = copiedBars(voice, section.from, section.to, place);
  const [first] = bars;
  const ending = bars.findIndex(({ repeatTimes }) => repeatTimes > 0);
  const opening = bars.findIndex(({ startsRepeat }) => startsRepeat);
  if (first !== undefined && ending >= 0 && (opening < 0 || opening > ending)) first.startsRepeat = true;
  return bars;
}

const slurCount = ({ bars }: AbcVoice): number =>
  bars.flatMap(({ layers }) => layers.flat()).reduce((most, { slurStarts }) => Math.max(most, ...slurStarts), 0);

function voiceInOrder(voice: AbcVoice, playings: readonly Playing[], unended: Set<number>): AbcVoice {
  const ids: SlurIds = { next: slurCount(voice) + 1, unended };
  const bars = playings.flatMap(({ section, times, isFolded }, place) => {
    const before = playings[place - 1]?.section;
    const after = playings[place + 1]?.section;
    const copies = isFolded ? 1 : times;
    return Array.from({ length: copies }, (_, copy) => {
      const follows = (copy === 0 ? before?.to : section.to) === section.from;
      const isFollowed = (copy === copies - 1 ? after?.from : section.from) === section.to;
      const own = placed(voice, section, {
        restates: !follows,
        joinsBefore: follows && !isFolded,
        joinsAfter: isFollowed && !isFolded,
        ids,
      });
      const [first] = own;
      const last = own.at(-1);
      if (isFolded && first !== undefined && last !== undefined) {
        first.startsRepeat = true;
        last.repeatTimes = times;
      }
      return own;
    }).flat();
  });
  return { ...voice, bars };
}

const eventsIn = ({ from, to }: Section, voices: readonly AbcVoice[]): number =>
  voices.flatMap(({ bars }) => bars.slice(from, to)).reduce((sum, { layers }) => sum + layers.flat().length, 0);

const sumOf = (playings: readonly Playing[], of: (section: Section) => number): number =>
  playings.reduce((sum, { section, times, isFolded }) => sum + of(section) * (isFolded ? 1 : times), 0);

/** The voice with rests where others have bars that it has not. */
function padded(voice: AbcVoice, voices: readonly AbcVoice[]): AbcVoice {
  const longest = voices.reduce((most, other) => (other.bars.length > most.bars.length ? other : most), voice);
  const more = longest.bars.slice(voice.bars.length).map((bar) => {
    const [layer = []] = bar.layers;
    const silent = layer.map((event): AbcEvent => ({ ...event, ...nothingOf() }));
    return { ...bar, layers: [silent] };
  });
  return { ...voice, bars: [...voice.bars, ...more] };
}

/** The sections that an order names; names that no part has, and parts that it passes over, are told. */
function namedSections(
  names: readonly string[],
  sections: readonly Section[],
  tell: (detail: string) => void,
): Section[] {
  const unknown = [...new Set(names)].filter((name) => sections.every((section) => section.name !== name));
  if (unknown.length > 0)
    tell(`The order of parts names ${unknown.join(', ')}, which the tune does not have; left out.`);
  const silent = sections.filter(({ name }) => name !== '' && !names.includes(name));
  if (silent.length > 0)
    tell(
      `The order of parts does not name ${silent.map(({ name }) => name).join(', ')}; not played there, it was left out.`,
    );
  const opening = sections.filter(({ name }) => name === '');
  return [...opening, ...names.flatMap((name) => sections.find((section) => section.name === name) ?? [])];
}

/** The tune with its parts in the order that its header names: a part that is played again and again has a repeat if it has none of its own, every other return is written out. What cannot be followed is told, and the tune stays as it is written. */
export function inPlayOrder(score: AbcScore, log: AbcLog): AbcScore {
  const { partOrder, voices } = score;
  if (partOrder === null || voices.length === 0) return score;
  const { text, lineNumber, column } = partOrder;
  const tell = (detail: string): void => log.add('element-left-out', 'warning', detail, lineNumber, column);
  const order = partOrderOf(text);
  if (order.kind !== 'order') {
    tell(
      `The order of parts “${text.slice(0, 60)}” is ${order.kind === 'endless' ? 'too long' : 'not understood'}; the tune is read as it is written.`,
    );
    return score;
  }
  const sections = sectionsOf(voices, log);
  const isWritten =
    sections
      .filter(({ name }) => name !== '')
      .map(({ name }) => name)
      .join('') === order.parts.join('');
  if (isWritten || (sections.every(({ name }) => name === '') && order.parts.length === 1)) return score;
  const named = namedSections(order.parts, sections, tell);
  const playings = playingsOf(named, voices);
  const barCount = sumOf(playings, ({ from, to }) => to - from);
  const eventCount = sumOf(playings, (section) => eventsIn(section, voices));
  if (barCount === 0 || barCount > limits.bars || eventCount > limits.notes) {
    tell(`With the order of parts “${text.slice(0, 60)}” the tune has ${barCount} bars; it is read as it is written.`);
    return score;
  }
  const unendedSlurs = new Map<AbcVoice, ReadonlySet<number>>();
  const ordered = voices.map((voice) => {
    const unended = new Set(score.unendedSlurs.get(voice));
    const again = voiceInOrder(padded(voice, voices), playings, unended);
    unendedSlurs.set(again, unended);
    return again;
  });
  log.add(
    'value-repaired',
    'note',
    `The parts were put in the order ${text.slice(0, 60)}: ${barCount} bars written.`,
    lineNumber,
    column,
  );
  return { ...score, voices: ordered, unendedSlurs };
}
