import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readScoreFile } from '../read-score-file.ts';

interface Read {
  readonly score: Score;
  readonly told: readonly string[];
}

function read(text: string): Read {
  const source = { fileName: 'made.txt', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readScoreFile(new TextEncoder().encode(text), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { score: result.value.score, told: result.value.issues.map(({ detail }) => detail) };
}

/** Bars as `onset:length string/fret`, in quarter notes. */
function bars({ bars: all, notes, ticksPerQuarter }: Score): string[] {
  const quarters = (ticks: number): number => Math.round((ticks / ticksPerQuarter) * 1000) / 1000;
  return all.map((bar) =>
    notes
      .filter((note) => note.bar === bar.id)
      .map(({ onsetTicks, lengthTicks, fingerboard }) => {
        const place = `${fingerboard!.string}/${fingerboard!.fret}`;
        return `${quarters(onsetTicks - bar.onsetTicks)}:${quarters(lengthTicks)} ${place}`;
      })
      .join(', '),
  );
}

/** Six strings without letters; what is left out is empty. */
function six(rows: Readonly<Record<number, string>>): string {
  const pattern = Object.values(rows)[0]!;
  const empty = pattern
    .slice(0, pattern.lastIndexOf('|') + 1)
    .replace(/[^|:]/g, '-')
    .replaceAll(':', '-');
  return Array.from('eBGDAE', (label, index) => `${label}|${rows[index + 1] ?? empty}`).join('\n');
}

// Everything here is common practice of tablature in plain text, no source.
describe('tablature as it is shared', () => {
  it('may have a remark after a line, and rules that touch it', () => {
    const tab = `----------------------\n${six({ 1: '-0---3---|   <- softly', 6: '-3-------|' })}\n======================`;
    const { score, told } = read(tab);
    expect(bars(score)).toEqual(['0:2 1/0, 0:2 6/3, 2:2 1/3']);
    expect(score.words.map(({ text }) => text)).toEqual(['<- softly']);
    expect(told).toContain('“<- softly” was kept as words.');
  });

  it('may have systems that touch each other, with letters and without', () => {
    const lettered = ['E|-0---3---|', 'B|---------|', 'G|---------|', 'D|---------|', 'A|---------|', 'E|-3-------|'];
    expect(bars(read([...lettered, ...lettered].join('\n')).score)).toEqual([
      '0:2 1/0, 0:2 6/3, 2:2 1/3',
      '0:2 1/0, 0:2 6/3, 2:2 1/3',
    ]);
    const bass = ['G|-0---2---|', 'D|---------|', 'A|---------|', 'E|-3-------|'];
    expect(bars(read([...bass, ...bass].join('\n')).score)).toHaveLength(2);
    const plain = (fret: number): string[] => [`-${fret}---3---|`, ...Array.from({ length: 5 }, () => '---------|')];
    expect(bars(read([...plain(0), ...plain(5)].join('\n')).score)).toEqual(['0:2 1/0, 2:2 1/3', '0:2 1/5, 2:2 1/3']);
  });

  it('may have remarks in brackets between chord symbols', () => {
    const { score } = read(`  D/F#      Am7 (hold)\n${six({ 1: '-2---2---|-0-------|' })}`);
    expect(score.chordSymbols.map(({ text }) => text)).toEqual(['D/F♯', 'Am7']);
    expect(score.words.map(({ text }) => text)).toEqual(['(hold)']);
  });

  it('may say with % that a bar is played again', () => {
    const { score, told } = read(six({ 1: ':-0---3---|----%----|-5---7---:|', 6: ':-3-------|---------|---------:|' }));
    expect(bars(score)).toEqual(['0:2 1/0, 0:2 6/3, 2:2 1/3', '0:2 1/0, 0:2 6/3, 2:2 1/3', '0:2 1/5, 2:2 1/7']);
    expect(told).toContain('A “%” stands for the bar before it; that was written out again.');
  });

  it('may number endings over bars that lead back', () => {
    const body = six({ 1: ':-0---3---|-5---7---:|-0-------|', 2: ':-0---3---|-5---7---:|-0-------|' });
    const { score } = read(`            1.________ 2.________\n${body}`);
    expect(score.bars.map(({ startsRepeat, repeatTimes, endings }) => [startsRepeat, repeatTimes, endings])).toEqual([
      [true, 0, []],
      [false, 2, [1]],
      [false, 0, [2]],
    ]);
    const numbered = read(`  1.        2.\n${six({ 1: '-0---3---|-5---7---|' })}`);
    expect(numbered.score.bars.map(({ endings }) => endings)).toEqual([[], []]);
    expect(numbered.score.words.map(({ text }) => text)).toEqual(['1.', '2.']);
  });
});

describe('rhythm that is counted above the strings', () => {
  it('is taken, in halves, quarters and thirds of the beat', () => {
    const halves = read(`Count:\n   1   & 2 3   4 &\n${six({ 1: '-0---3-0-----3-1-|' })}`);
    expect(bars(halves.score)).toEqual(['0:0.5 1/0, 0.5:0.5 1/3, 1:2 1/0, 3:0.5 1/3, 3.5:0.5 1/1']);
    const quarters = read(`   1 e & a 2 + 3   4\n${six({ 1: '-0-1-3-1-0-3-1-----|' })}`);
    expect(bars(quarters.score)).toEqual([
      '0:0.25 1/0, 0.25:0.25 1/1, 0.5:0.25 1/3, 0.75:0.25 1/1, 1:0.5 1/0, 1.5:0.5 1/3, 2:2 1/1',
    ]);
    const thirds = read(`   1 & a 2 & a\n${six({ 1: '-0-1-3-0-1-3-|' })}`);
    expect(bars(thirds.score)[0]).toBe(
      '0:0.333 1/0, 0.333:0.333 1/1, 0.667:0.333 1/3, 1:0.333 1/0, 1.333:0.333 1/1, 1.667:0.333 1/3',
    );
    expect([halves, quarters, thirds].flatMap(({ told }) => told.filter((text) => text.includes('guessed')))).toEqual(
      [],
    );
  });

  it('begins with a rest where nothing is struck on 1, and is one count for each bar', () => {
    const { score } = read(`   1 + 2 + 3 4   1   2   3   4\n${six({ 1: '---0-1-3-1-0-|-5-------7-----|' })}`);
    expect(bars(score)).toEqual(['0.5:0.5 1/0, 1:0.5 1/1, 1.5:0.5 1/3, 2:1 1/1, 3:1 1/0', '0:2 1/5, 2:2 1/7']);
  });

  it('is no rhythm where it passes notes over', () => {
    const { told } = read(`   1   &   2\n${six({ 1: '-0-1-3-1-0-3-|' })}`);
    expect(told.some((text) => text.includes('guessed'))).toBe(true);
  });
});

describe('rhythm that is guessed', () => {
  it('takes the dots of repeat signs for columns only where they are some', () => {
    const first = '0:0.5 1/0, 0.5:0.5 1/1, 1:0.5 1/0, 1.5:0.5 1/1, 2:0.5 1/0, 2.5:0.5 1/1, 3:0.5 1/0, 3.5:0.5 1/1';
    const notes = '0-1-0-1-0-1-0-1-';
    expect(
      bars(read(six({ 1: `*-${notes}|--${notes}|`, 2: `*-${'-'.repeat(16)}|--${'-'.repeat(16)}|` })).score),
    ).toEqual([first, first]);
    expect(bars(read(six({ 1: `:-${notes}|-${notes}|` })).score)).toEqual([first, first]);
  });

  it('keeps equal distances equal', () =>
    expect(bars(read(six({ 1: '-0-2-3-|' })).score)).toEqual(['0:1 1/0, 1:1 1/2, 2:2 1/3']));

  it('is in three where bars are drawn in three or six equal places', () => {
    const { score, told } = read(six({ 1: '-0-----3-----|-0---1---3---|', 3: '---0-0---0-0-|-------------|' }));
    expect(score.bars.map(({ meter }) => `${meter.beats.join('+')}/${meter.beatUnit}`)).toEqual(['3/4', '3/4']);
    expect(bars(score)[0]).toBe('0:0.5 1/0, 0.5:0.5 3/0, 1:0.5 3/0, 1.5:0.5 1/3, 2:0.5 3/0, 2.5:0.5 3/0');
    expect(told).toContain('No meter is given; 3/4 was taken, as most bars are drawn in three or six equal places.');
    expect(read(six({ 1: '-3---0---3---|', 5: '---2---3---2-|' })).score.bars[0]?.meter.beats).toEqual([3]);
    const four = read(six({ 1: '-0---1---3---1---|-0-1-3-1-0-1-3-1-|-0-----3-----|' }));
    expect(four.score.bars[0]?.meter.beats).toEqual([4]);
  });
});
