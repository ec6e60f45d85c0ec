import { describe, expect, it } from 'vitest';
import type { ImportIssue } from '../../lib/api/songs.ts';
import { groupsOf, placeWords, reportSentence } from './issue-words.ts';

const inMusic = (barLabel: string, beat: number): ImportIssue['where'] => ({
  kind: 'music',
  part: 'P1',
  barOrdinal: 7,
  barLabel,
  beat,
});
const issue = (
  severity: ImportIssue['severity'],
  detail: string,
  where: ImportIssue['where'] = { kind: 'file' },
): ImportIssue => ({ code: 'x', severity, detail, where });

describe('the words of a report', () => {
  it.each([
    [{ kind: 'file' } as const, 'the whole file'],
    [{ kind: 'text', lineNumber: 3, column: 9 } as const, 'line 3 of the file, column 9'],
    [inMusic('6', 2.5), 'bar 6, beat 2.5'],
    [inMusic('', 1), 'bar no. 7, beat 1'],
  ])('say where: %o', (where, words) => expect(placeWords({ where })).toBe(words));

  it('put the worst first and gather the places of the same sentence', () => {
    const groups = groupsOf([
      issue('note', 'n'),
      issue('warning', 'w', inMusic('1', 1)),
      issue('warning', 'w', inMusic('2', 3)),
    ]);
    expect(groups.map(({ detail, places }) => [detail, places])).toEqual([
      ['w', ['bar 1, beat 1', 'bar 2, beat 3']],
      ['n', ['the whole file']],
    ]);
  });

  it('count', () => {
    expect(reportSentence([])).toContain('Everything');
    expect(reportSentence([issue('warning', 'a'), issue('note', 'b'), issue('note', 'c')])).toBe(
      'One thing to look at, 2 things to know.',
    );
  });
});
