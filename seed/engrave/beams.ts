import type { Meter } from '../../music/index.ts';
import { beatTicksOf } from './values.ts';
import type { VoiceEvent } from './voice-events.ts';

/** What one beam level does at an event. */
export type BeamWord = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

const levelsOf: Readonly<Record<VoiceEvent['type'], number>> = {
  whole: 0,
  half: 0,
  quarter: 0,
  eighth: 1,
  '16th': 2,
  '32nd': 3,
};

const beamLevels = (event: VoiceEvent | undefined): number =>
  event === undefined || event.notes.length === 0 ? 0 : levelsOf[event.type];

function beamWord(events: readonly VoiceEvent[], index: number, level: number): BeamWord {
  const before = beamLevels(events[index - 1]) >= level;
  const after = beamLevels(events[index + 1]) >= level;
  if (before && after) return 'continue';
  if (before) return 'end';
  if (after) return 'begin';
  return index === 0 ? 'forward hook' : 'backward hook';
}

function groupsOf(events: readonly VoiceEvent[], meter: Meter): VoiceEvent[][] {
  const beatTicks = beatTicksOf(meter);
  const groups: VoiceEvent[][] = [];
  let beat = -1;
  for (const event of events) {
    const eventBeat = Math.floor(event.onsetTicks / beatTicks);
    const continues = eventBeat === beat && beamLevels(event) > 0 && groups.length > 0;
    if (continues) groups.at(-1)?.push(event);
    else if (beamLevels(event) > 0) groups.push([event]);
    beat = beamLevels(event) > 0 ? eventBeat : -1;
  }
  return groups.filter((group) => group.length > 1);
}

/** The beams of each event, first level first: neighbours within one beat are beamed. */
export function beamsOf(events: readonly VoiceEvent[], meter: Meter): ReadonlyMap<VoiceEvent, readonly BeamWord[]> {
  const beams = new Map<VoiceEvent, readonly BeamWord[]>();
  for (const group of groupsOf(events, meter))
    for (const [index, event] of group.entries()) {
      const levels = Array.from({ length: beamLevels(event) }, (_, level) => beamWord(group, index, level + 1));
      beams.set(event, levels);
    }
  return beams;
}
