import { performLines, type Performance } from '../../../music/index.ts';
import { hit, meter, note, voices } from '../../support/score-builders.ts';
import { splitOf } from '../../support/split-builders.ts';

const at = (string: number, fret: number) => ({ string, fret });

/** Two bars for four lines, with something of every kind: strings, hits, damping, dynamics, a hammer-on, a harmonic, a bend. */
export function littlePerformance(): Performance {
  const score = voices(
    meter(4, 4),
    [
      note('E4', 1, at(1, 0)),
      note('G4', 0.5, { ...at(1, 3), techniques: ['hammerOn'] }),
      note('A4', 1.5, at(1, 5)),
      note('B4', 1, at(1, 7)),
      note('G4', 4, at(1, 3)),
    ],
    [note('G3', 2, at(3, 0)), note('A3', 2, at(3, 2)), note('B3', 4, { ...at(3, 4), techniques: ['naturalHarmonic'] })],
    [note('E2', 2, at(6, 0)), note('A2', 2, at(5, 0)), note('E2', 4, at(6, 0))],
    [hit(1), hit(1, 'stringSlap'), hit(1, 'highBody'), hit(1, 'deadNote'), hit(2), hit(2, 'stringSlap')],
  );
  const dynamics = [
    { kind: 'hairpin', onsetTicks: 0, endTicks: score.ticksPerQuarter * 4, direction: 'louder' } as const,
  ];
  const ofVoice = (voice: string): string[] =>
    score.notes.filter((each) => each.voices[0]?.voice === voice).map(({ id }) => id);
  const split = splitOf({ melody: ofVoice('1'), middle: ofVoice('2'), bass: ofVoice('3'), taps: ofVoice('4') });
  const performance = performLines({ ...score, dynamics }, split);
  const bend = [
    { atSeconds: 0.2, cents: 0 },
    { atSeconds: 0.4, cents: 200 },
  ];
  const bent = ofVoice('1')[3];
  const events = performance.events.map((event) => (event.note === bent ? { ...event, glide: bend } : event));
  return { ...performance, events };
}
