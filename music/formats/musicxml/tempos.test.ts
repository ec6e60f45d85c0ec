import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(...bars: readonly string[]): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(measuresXml(bars)), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const bar = '<note><pitch><step>C</step><octave>4</octave></pitch><duration>96</duration></note>';
const direction = (type: string, sound = ''): string =>
  `<direction><direction-type>${type}</direction-type>${sound}</direction>`;
const metronome = (content: string, sound = ''): string => direction(`<metronome>${content}</metronome>`, sound);
const unit = (name: string, dots = 0): string => `<beat-unit>${name}</beat-unit>${'<beat-unit-dot/>'.repeat(dots)}`;
const mark = (quarters: number | string): string => metronome(`${unit('quarter')}<per-minute>${quarters}</per-minute>`);
const sound = (tempo: number, content = ''): string => `<sound tempo="${tempo}">${content}</sound>`;
const temposOf = ({ score }: ReadScore): (readonly [number, number])[] =>
  score.tempos.map(({ onsetTicks, quartersPerMinute }) => [onsetTicks, quartersPerMinute]);

describe('several tempos at one moment', () => {
  it.each([
    ['a metronome mark, then a sound', mark(60) + sound(100)],
    ['a sound, then a metronome mark', sound(100) + mark(60)],
    ['two sounds', sound(60) + sound(100)],
    ['two metronome marks', mark(60) + mark(100)],
    [
      'a metronome mark with a sound of its own',
      metronome(`${unit('quarter')}<per-minute>60</per-minute>`, sound(100)),
    ],
  ])('are what is to be heard before what is drawn, and of equals the last: %s', (_, signs) => {
    expect(temposOf(read(signs + bar))).toEqual([[0, 100]]);
  });
});

describe('a tempo that nobody can play', () => {
  it.each([0, 4000])('is told and left out: %d quarter notes a minute', (tempo) => {
    for (const signs of [sound(tempo), direction('<words>Presto</words>', sound(tempo))]) {
      const result = read(sound(90) + bar, signs + bar);
      expect(temposOf(result)).toEqual([[0, 90]]);
      expect(result.issues).toContainEqual(
        expect.objectContaining({
          code: 'element-left-out',
          where: expect.objectContaining({ kind: 'music', barOrdinal: 2, beat: 1 }) as unknown,
        }),
      );
    }
  });
});

describe('a sound with an offset of its own (MusicXML 4.0, sound: offset)', () => {
  it('is heard so far from its place, within a direction or alone', () => {
    expect(temposOf(read(sound(60, '<offset>24</offset>') + bar))).toEqual([[24, 60]]);
    const within = `<direction><direction-type><words>x</words></direction-type><offset>48</offset>${sound(60, '<offset>24</offset>')}</direction>`;
    expect(temposOf(read(within + bar))).toEqual([[24, 60]]);
  });
});

describe('a metronome mark', () => {
  it.each([
    [`${unit('quarter', 1)}<per-minute>40</per-minute>`, 60],
    [`${unit('half')}<per-minute>c. 60</per-minute>`, 120],
    [`${unit('eighth')}<per-minute>96,5</per-minute>`, 48.25],
    [`${unit('quarter')}<per-minute>96–120</per-minute>`, 96],
    [`${unit('128th')}<per-minute>960</per-minute>`, 30],
  ])('%s', (content, quarters) => {
    expect(temposOf(read(metronome(content) + bar))).toEqual([[0, quarters]]);
  });

  it.each([
    [unit('quarter') + unit('quarter', 1), 90],
    [unit('eighth') + unit('eighth'), 60],
    [unit('quarter', 1) + unit('quarter'), 40],
    [unit('half', 2) + unit('eighth'), 60 / 7],
  ])('that equates two values goes on from the tempo before it: %s', (content, quarters) => {
    const [, [ticks, tempo] = [0, 0]] = temposOf(read(mark(60) + bar, metronome(content) + bar));
    expect([ticks, tempo]).toEqual([96, expect.closeTo(quarters, 9)]);
  });

  it('that equates values at the beginning starts from 120', () => {
    expect(temposOf(read(metronome(unit('quarter') + unit('half')) + bar))).toEqual([[0, 240]]);
  });

  it('that no tempo can be read from is told', () => {
    const { score, issues } = read(bar, metronome(`${unit('quarter')}<per-minute>?</per-minute>`) + bar);
    expect(score.tempos).toEqual([]);
    expect(issues).toMatchObject([{ code: 'element-left-out', where: { barOrdinal: 2, beat: 1 } }]);
  });
});
