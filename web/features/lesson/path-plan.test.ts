import { describe, expect, it } from 'vitest';
import type { PathStep } from '../../../contract/index.ts';
import { engineMixOf, lineId, plainSetting } from '../../../music/index.ts';
import { fadeDb, planOf, promptOf } from './path-plan.ts';

const [melody, bass, taps] = ['melody', 'bass', 'taps'].map(lineId) as [
  ReturnType<typeof lineId>,
  ReturnType<typeof lineId>,
  ReturnType<typeof lineId>,
];
const lines = [melody, bass, taps];
const shape = { id: 's', title: 'A step', view: 'ribbons' as const };
const hear = (of: PathStep['lines'], forward: PathStep['lines'][number] | null = null): PathStep => ({
  ...shape,
  kind: 'hear',
  lines: of,
  forward,
  mix: [],
});

describe('the plan of a step', () => {
  it('solos the lines that are heard, and nobody when all are', () => {
    const solos = (step: PathStep) =>
      [...planOf(step, { again: false, lines }).settings]
        .filter(([, setting]) => setting.isSolo === true)
        .map(([line]) => line);
    expect(solos(hear([bass]))).toEqual([bass]);
    expect(solos(hear([melody, bass]))).toEqual([melody, bass]);
    expect(solos(hear(lines))).toEqual([]);
  });

  it('brings one line forward and keeps the teacher’s levels', () => {
    const step: PathStep = {
      ...shape,
      kind: 'hear',
      lines,
      forward: melody,
      mix: [{ line: bass, levelDb: -6, place: -0.5, tone: 0.2, instrument: 'nylon' }],
    };
    const plan = planOf(step, { again: false, lines });
    expect(plan.forward).toBe(melody);
    expect(plan.settings.get(bass)).toMatchObject({ levelDb: -6, place: -0.5, tone: 0.2, instrument: 'nylon' });
  });

  it('honours the mix of a step to sing after, and leaves the other lines in the middle as they are', () => {
    const mix = [{ line: bass, levelDb: 3, place: 1, tone: 0 }];
    const { settings } = planOf({ ...shape, kind: 'echo', lines: [melody, bass], mix }, { again: false, lines });
    const mixed = engineMixOf(
      lines,
      new Map([...settings].map(([line, part]) => [line, { ...plainSetting, ...part }])),
      null,
    );
    expect(mixed.lines.map(({ mix: { levelDb, place } }) => [levelDb, place])).toEqual([
      [0, 0],
      [3, 1],
      [0, 0],
    ]);
  });

  it('lets an echo be heard, sung and heard', () => {
    const { programme } = planOf({ ...shape, kind: 'echo', lines: [bass], mix: [] }, { again: true, lines });
    expect(programme?.passes.map(({ kind }) => kind)).toEqual(['play', 'silence', 'play']);
    expect(programme?.afterLast).toBe('again');
  });

  it('gives only the first note and a count-in before what is revealed', () => {
    const { programme } = planOf({ ...shape, kind: 'reveal', lines: [melody] }, { again: true, lines });
    expect(programme?.passes.map(({ kind }) => kind)).toEqual(['firstNote', 'countIn', 'silence']);
    expect(programme?.afterLast).toBe('stop');
  });

  it('fades one line from pass to pass to silence while the others go on', () => {
    const { programme } = planOf(
      { ...shape, kind: 'fade', lines: [melody, bass], fading: melody, passes: 4 },
      { again: false, lines },
    );
    const levels = programme?.passes.map((pass) =>
      pass.kind === 'play' && pass.lines !== 'all' ? pass.lines.map(({ levelDb }) => levelDb) : [],
    );
    expect(levels).toEqual([
      [0, 0],
      [-8, 0],
      [-16, 0],
      [-60, 0],
    ]);
  });

  it('never gets louder while it fades', () => {
    for (let passes = 2; passes <= 8; passes += 1) {
      const levels = Array.from({ length: passes }, (_, pass) => fadeDb(pass, passes));
      expect([...levels].sort((a, b) => b - a)).toEqual(levels);
      expect(levels.at(-1)).toBe(-60);
    }
  });
});

describe('the prompt', () => {
  it('tells when to listen and when to sing', () => {
    const echo: PathStep = { ...shape, kind: 'echo', lines: [bass], mix: [] };
    expect(promptOf(echo, 'play', 0)).toBe('Listen');
    expect(promptOf(echo, 'silence', 1)).toContain('sing');
    expect(promptOf(echo, 'play', 2)).toContain('again');
    expect(promptOf(echo, null, 0)).toBeNull();
    expect(promptOf(hear([bass]), 'play', 0)).toBeNull();
  });
});
