import { describe, expect, it } from 'vitest';
import { chord, meter, note, rest, voices, type Item } from '../../tests/support/score-builders.ts';
import { lineId } from '../basis/ids.ts';
import { proposeSplit } from './propose-split.ts';
import { separateVoices } from './separate-voices.ts';
import type { VoiceNote } from './voice-note.ts';

const ticksPerQuarter = 4;

/** A bar's worth of a tune, a strum on the second and the fourth beat below it, and a bass under all; the bars repeat, a step apart. */
const bars = [0, 2, 4, 2, 0, -1, 2, 0];
const struck = (beat: number, length: number, ...midis: readonly number[]): readonly VoiceNote[] =>
  midis.map((midi) => ({ onsetTicks: beat * ticksPerQuarter, lengthTicks: length * ticksPerQuarter, midi }));
const accompanied: readonly VoiceNote[] = bars.flatMap((step, bar) => [
  ...struck(4 * bar, 1, 76 + step),
  ...struck(4 * bar + 1, 1, 77 + step),
  ...struck(4 * bar + 2, 1, 79 + step),
  ...struck(4 * bar + 3, 1, 76 + step),
  ...struck(4 * bar + 1, 1, 64, 60, 55),
  ...struck(4 * bar + 3, 1, 64, 60, 55),
  ...struck(4 * bar, 4, 40 + (bar % 2) * 5),
]);

const isStrummed = ({ midi }: VoiceNote): boolean => midi >= 55 && midi <= 64;
const isBass = ({ midi }: VoiceNote): boolean => midi < 50;

// What is right follows from how each texture was made.
describe('chords', () => {
  it('that are strummed stay together, below the tune and above the bass', () => {
    const { labels } = separateVoices(accompanied, { ticksPerQuarter, lineCount: 3 });
    expect(labels).toEqual(accompanied.map((each) => (isBass(each) ? 2 : isStrummed(each) ? 1 : 0)));
  });

  it('that are strummed stay together below the tune where the music is heard in two lines', () => {
    const upper = accompanied.filter((each) => !isBass(each));
    const { labels } = separateVoices(upper, { ticksPerQuarter, lineCount: 2 });
    expect(labels).toEqual(upper.map((each) => (isStrummed(each) ? 1 : 0)));
  });

  it('give their top note to the tune where it goes on there', () => {
    const tune = [72, 74, 76, 77, 79, 77, 76, 74, 72, 74, 76, 72];
    const notes = tune.flatMap((midi, beat) =>
      beat % 3 === 0 ? struck(beat, 1, midi, 60, 57, 53) : struck(beat, 1, midi),
    );
    const { labels } = separateVoices(notes, { ticksPerQuarter, lineCount: 2 });
    expect(labels).toEqual(notes.map(({ midi }) => (midi >= 72 ? 0 : 1)));
  });

  it('of one line stay whole in a score, and the lines say what they are', () => {
    const strums: readonly Item[] = [rest(1), chord(['C4', 'E4', 'G4'], 1), rest(1), chord(['C4', 'E4', 'G4'], 1)];
    const score = voices(
      meter(4, 4),
      ['E5', 'F5', 'G5', 'F5', 'E5', 'D5', 'E5', 'C5'].flatMap((name) => [
        note(name, 1.5),
        note(name, 0.5),
        note('D5', 2),
      ]),
      [0, 1, 2, 3, 4, 5, 6, 7].flatMap(() => strums),
      ['C3', 'G2', 'C3', 'G2', 'C3', 'G2', 'C3', 'C3'].map((name) => note(name, 4)),
    );
    let made = 0;
    const options = { pins: new Map(), lines: [], lineCount: 3, newLineId: () => lineId(`line-${(made += 1)}`) };
    const { lines, marks, reasons } = proposeSplit(score, options);
    const ofVoice = (voice: string) =>
      new Set(
        score.notes.filter(({ voices: [first] }) => first?.voice === voice).flatMap(({ id }) => marks.get(id)!.lines),
      );
    expect(['1', '2', '3'].map((voice) => ofVoice(voice).size)).toEqual([1, 1, 1]);
    expect(lines.map(({ role }) => role)).toEqual(['melody', 'accompaniment', 'bass']);
    expect(reasons.map(({ line }) => line)).toEqual(lines.map(({ id }) => id));
    for (const { reason } of reasons) expect(reason).toMatch(/^[a-z][^\n]{8,}$/);
  });
});

describe('unisons', () => {
  /** Two voices that meet on one pitch in the middle of each bar, each note written for both. */
  const meeting = [0, 1, 2, 3].flatMap((bar) => [
    ...struck(4 * bar, 1, 72),
    ...struck(4 * bar, 1, 60),
    ...struck(4 * bar + 1, 1, 69),
    ...struck(4 * bar + 1, 1, 64),
    ...struck(4 * bar + 2, 1, 67),
    ...struck(4 * bar + 2, 1, 67),
    ...struck(4 * bar + 3, 1, 71),
    ...struck(4 * bar + 3, 1, 62),
  ]);

  it.each([undefined, 2])('put their twins on two lines, with %s lines asked for', (lineCount) => {
    const { labels } = separateVoices(meeting, { ticksPerQuarter, lineCount });
    meeting.forEach((each, index) => {
      const twin = meeting.findIndex(
        (other, place) => place > index && other.midi === each.midi && other.onsetTicks === each.onsetTicks,
      );
      if (twin !== -1) expect(labels[index]).not.toBe(labels[twin]);
    });
    expect(new Set(labels).size).toBe(2);
  });
});
