import type { Meter } from '../../score/score.ts';
import type { NoteValue } from '../../score/written.ts';
import {
  childOf,
  childText,
  elementsOf,
  isElement,
  numberOf,
  withChildren,
  type XmlElement,
  type XmlNode,
} from '../xml/tree.ts';
import { beamElements } from './beam-elements.ts';
import { beamsOfBar, type Beamable, type Beams } from './beaming.ts';

interface PlacedNote extends Beamable {
  readonly note: XmlElement;
}

interface Running {
  divisions: number;
  /** Null in free time, which has no beams. */
  meter: Meter | null;
}

function meterOf(time: XmlElement): Meter | null {
  const beats = childText(time, 'beats').split('+').map(Number);
  const beatUnit = numberOf(childOf(time, 'beat-type'));
  return beatUnit === null || beats.some((count) => !(count > 0)) ? null : { beats, beatUnit };
}

function readAttributes(attributes: XmlElement, running: Running): void {
  running.divisions = numberOf(childOf(attributes, 'divisions')) ?? running.divisions;
  const time = childOf(attributes, 'time');
  if (time !== undefined) running.meter = meterOf(time);
}

/** The struck notes and rests of each voice of a measure, and how long the measure is. */
function voicesOf(
  measure: XmlElement,
  running: Running,
): { readonly voices: ReadonlyMap<string, PlacedNote[]>; readonly lengthTicks: number } {
  const voices = new Map<string, PlacedNote[]>();
  let at = 0;
  let lengthTicks = 0;
  for (const node of elementsOf(measure)) {
    if (node.name === 'attributes') readAttributes(node, running);
    const duration = numberOf(childOf(node, 'duration')) ?? 0;
    const stays = node.name === 'note' && (childOf(node, 'chord') ?? childOf(node, 'grace')) !== undefined;
    if (node.name === 'note' && !stays) {
      const key = `${childText(node, 'staff')} ${childText(node, 'voice')}`;
      // An absent type has no flags, as a quarter has none.
      const type = (childText(node, 'type') || 'quarter') as NoteValue['type'];
      const heads = { length: childOf(node, 'rest') === undefined ? 1 : 0 };
      const voice = voices.get(key) ?? [];
      voices.set(key, voice);
      voice.push({ note: node, onsetTicks: at, value: { type }, heads });
    }
    if (!stays) at += node.name === 'backup' ? -duration : duration;
    lengthTicks = Math.max(lengthTicks, at);
  }
  return { voices, lengthTicks };
}

/** The elements of a note that stand after its beams. **Source** MusicXML 4.0, note. */
const afterBeams = new Set(['notations', 'lyric', 'play', 'listen']);

function beamed(note: XmlElement, beams: Beams): XmlElement {
  const at = note.children.findIndex((node) => isElement(node) && afterBeams.has(node.name));
  const place = at < 0 ? note.children.length : at;
  return withChildren(note, [...note.children.slice(0, place), ...beamElements(beams), ...note.children.slice(place)]);
}

function beamedMeasure(measure: XmlElement, isFirst: boolean, running: Running): XmlElement {
  const { voices, lengthTicks } = voicesOf(measure, running);
  const { meter, divisions } = running;
  if (meter === null) return measure;
  const full = (meter.beats.reduce((sum, count) => sum + count, 0) * 4 * divisions) / meter.beatUnit;
  const shiftTicks = isFirst ? Math.max(0, full - lengthTicks) : 0;
  const beams = new Map<XmlNode, Beams>();
  for (const events of voices.values())
    for (const [{ note }, own] of beamsOfBar(events, meter, divisions, shiftTicks)) beams.set(note, own);
  if (beams.size === 0) return measure;
  return withChildren(
    measure,
    measure.children.map((node) => {
      const own = beams.get(node);
      return own === undefined || !isElement(node) ? node : beamed(node, own);
    }),
  );
}

/** A partwise tree of ours with beams put in: notes within a beat of the meter, voice by voice. **Source** common practice, no source; MusicXML 4.0, beam. */
export function withBeams(root: XmlElement): XmlElement {
  return withChildren(
    root,
    root.children.map((part) => {
      if (!isElement(part, 'part')) return part;
      const running: Running = { divisions: 1, meter: { beats: [4], beatUnit: 4 } };
      let isFirst = true;
      const measures = part.children.map((measure) => {
        if (!isElement(measure, 'measure')) return measure;
        const made = beamedMeasure(measure, isFirst, running);
        isFirst = false;
        return made;
      });
      return withChildren(part, measures);
    }),
  );
}
