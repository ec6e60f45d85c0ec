import { assumedTempo } from '../../score/assumed-tempo.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { barAtTicks, unitsAtTicks, type MidiBar } from './bar-map.ts';
import type { TimedEvent } from './open-midi.ts';
import type { GridRegion } from './quantise.ts';
import { textOfBytes } from './source-parts.ts';

/** A direction with its place in a bar. */
interface PlacedDirection {
  readonly barIndex: number;
  readonly offsetUnits: number;
  readonly element: XmlElement;
}

function direction(type: XmlElement, offsetUnits: number, sound: XmlElement | null = null): XmlElement {
  return element('direction', { placement: 'above' }, [
    element('direction-type', {}, [type]),
    ...(offsetUnits === 0 ? [] : [element('offset', { sound: 'yes' }, [String(offsetUnits)])]),
    ...(sound === null ? [] : [sound]),
  ]);
}

/** The shortest decimal that a file's whole microseconds stand for: 666,667 are 90 a minute. */
function tempoText(microsecondsPerQuarter: number): string {
  const exact = 60_000_000 / microsecondsPerQuarter;
  const short = [0, 1, 2, 3, 4, 5].map((digits) => Number(exact.toFixed(digits)));
  const same = short.find((tempo) => tempo > 0 && Math.round(60_000_000 / tempo) === microsecondsPerQuarter);
  return String(same ?? Number(exact.toFixed(6)));
}

function tempoDirection(microsecondsPerQuarter: number, offsetUnits: number): XmlElement {
  const tempo = tempoText(microsecondsPerQuarter);
  const metronome = element('metronome', {}, [
    textElement('beat-unit', 'quarter'),
    textElement('per-minute', String(Number(Number(tempo).toFixed(1)))),
  ]);
  return direction(metronome, offsetUnits, element('sound', { tempo }));
}

/** A marker that stands within a bar is words: rehearsal marks belong to bars. */
const markerDirection = (text: string, offsetUnits: number): XmlElement =>
  direction(element(offsetUnits === 0 ? 'rehearsal' : 'words', {}, [text]), offsetUnits);

const swingSound = element('sound', {}, [
  element('swing', {}, [textElement('first', 2), textElement('second', 1), textElement('swing-type', 'eighth')]),
]);
const straightSound = element('sound', {}, [element('swing', {}, [element('straight')])]);

function swingDirections(regions: readonly GridRegion[]): PlacedDirection[] {
  let isSwung = false;
  const placed: PlacedDirection[] = [];
  for (const { kind, firstBar } of regions) {
    if ((kind === 'swing') === isSwung) continue;
    isSwung = kind === 'swing';
    const words = element('words', {}, [isSwung ? 'Swing' : 'Straight']);
    const sound = isSwung ? swingSound : straightSound;
    placed.push({ barIndex: firstBar - 1, offsetUnits: 0, element: direction(words, 0, sound) });
  }
  return placed;
}

function placeOf(bars: readonly MidiBar[], ticks: number): { readonly barIndex: number; readonly offsetUnits: number } {
  const bar = barAtTicks(bars, ticks);
  const offset = Math.round(unitsAtTicks(bars, ticks) - (bar?.startUnits ?? 0));
  return { barIndex: bar?.index ?? 0, offsetUnits: Math.min(Math.max(0, offset), bar?.lengthUnits ?? 0) };
}

function directionOf({ ticks, event }: TimedEvent, bars: readonly MidiBar[]): PlacedDirection[] {
  const place = placeOf(bars, ticks);
  if (event.type === 'setTempo')
    return [{ ...place, element: tempoDirection(event.microsecondsPerBeat, place.offsetUnits) }];
  const text = event.type === 'marker' ? textOfBytes(event.text) : '';
  return text === '' ? [] : [{ ...place, element: markerDirection(text, place.offsetUnits) }];
}

const usualTempo: TimedEvent = {
  ticks: 0,
  event: { deltaTime: 0, meta: true, type: 'setTempo', microsecondsPerBeat: 60_000_000 / assumedTempo },
};

/** Whether a file says how fast it begins. */
export const opensWithTempo = (tracks: readonly (readonly TimedEvent[])[]): boolean =>
  tracks.some((track) => track.some(({ ticks, event }) => ticks === 0 && event.type === 'setTempo'));

/** Tempos, markers and swing as `<direction>` elements by the index of their bar; of several tempos at one moment the last one holds. */
export function directionsOf(
  tracks: readonly (readonly TimedEvent[])[],
  bars: readonly MidiBar[],
  regions: readonly GridRegion[],
): ReadonlyMap<number, readonly XmlElement[]> {
  const end = bars.at(-1)?.endTicks ?? 0;
  const events = tracks.flat().filter(({ ticks }) => ticks < end || ticks === 0);
  const named = events.filter(({ event }) => event.type === 'setTempo');
  const tempos = new Map(
    [...(opensWithTempo(tracks) ? [] : [usualTempo]), ...named].map((timed) => [timed.ticks, timed]),
  );
  const markers = events.filter(({ event }) => event.type === 'marker');
  const timed = [...tempos.values(), ...markers].sort((a, b) => a.ticks - b.ticks);
  const byBar = new Map<number, XmlElement[]>();
  for (const placed of [...swingDirections(regions), ...timed.flatMap((one) => directionOf(one, bars))]) {
    const known = byBar.get(placed.barIndex);
    if (known === undefined) byBar.set(placed.barIndex, [placed.element]);
    else known.push(placed.element);
  }
  return byBar;
}
