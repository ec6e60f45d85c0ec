import { describe, expect, it } from 'vitest';
import type { LessonStep } from '../../../contract/index.ts';
import { barId } from '../../../music/index.ts';
import { spreadsOf } from './spreads.ts';

const text = (id: string): LessonStep => ({ kind: 'text', id, text: id });
const place = { bar: barId('b1'), offset: { numerator: 0, denominator: 1 } };
const listen = (id: string): LessonStep => ({
  kind: 'listen',
  id,
  title: id,
  excerpt: { from: place, to: place },
  tempoPercent: 100,
  path: [],
  mixes: [],
});
const shape = (steps: readonly LessonStep[]) =>
  spreadsOf(steps).map(({ texts, listen: heard }) => `${texts.map(({ id }) => id).join('')}|${heard?.id ?? ''}`);

describe('spreads', () => {
  it('put texts beside the excerpt that follows them', () => {
    expect(shape([text('a'), text('b'), listen('1'), listen('2'), text('c')])).toEqual(['ab|1', '|2', 'c|']);
  });

  it('are none without steps', () => {
    expect(shape([])).toEqual([]);
  });
});
