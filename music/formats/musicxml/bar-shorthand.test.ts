import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readMusicXml, readNormalised, type ReadScore } from './read-score.ts';

const source = { fileName: 'made.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };

function read(measures: string): ReadScore {
  const xml = `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list><part id="P1">${measures}</part></score-partwise>`;
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return result.value;
}

const first = (inner = ''): string =>
  `<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time>${inner}</attributes>`;
const note = (step: string, duration: number, inner = '', octave = 4): string =>
  `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>${duration}</duration><voice>1</voice>${inner}</note>`;
const rest = '<note><rest measure="yes"/><duration>4</duration><voice>1</voice></note>';
const bar = (number: number, content: string): string => `<measure number="${number}">${content}</measure>`;
const repeat = (type: string, count = 1): string =>
  `<attributes><measure-style><measure-repeat type="${type}">${count}</measure-repeat></measure-style></attributes>`;

/** Each bar's notes as they sound: `C4 D4 | E4`. */
const heard = ({ bars, notes }: Score): string =>
  bars
    .map(({ id }) =>
      notes
        .filter((one) => one.bar === id)
        .map(({ sound }) =>
          sound.kind === 'hit'
            ? 'x'
            : `${sound.sounding.step}${'#'.repeat(Math.max(0, sound.sounding.alter))}${sound.sounding.octave}`,
        )
        .join(' '),
    )
    .join(' | ');
const told = ({ issues }: ReadScore): string[] => issues.map(({ detail }) => detail);

// MusicXML 4.0, measure-repeat: “a sequence of one or more measures that repeats”, start and stop, from memory.
describe('bars that are played as those before', () => {
  it('have the notes of the bar before, until the sign stops', () => {
    const found = read(
      bar(1, `${first()}${note('C', 1)}${note('D', 3)}`) +
        bar(2, repeat('start') + rest) +
        bar(3, '') +
        bar(4, repeat('stop') + note('E', 4)),
    );
    expect(heard(found.score)).toBe('C3 D3 | C3 D3 | C3 D3 | E3');
    expect(found.score.rests).toEqual([]);
    expect(told(found)).toContain('Bars that a sign tells to be played as those before were written out: 2, 3.');
    expect(heard(readNormalised(found.normalisedXml).value)).toBe(heard(found.score));
    expect(new Set(found.score.notes.map(({ id }) => id)).size).toBe(7);
  });

  it('repeat two bars where the sign says two', () => {
    const found = read(
      bar(1, `${first()}${note('C', 4)}`) +
        bar(2, note('D', 4)) +
        bar(3, repeat('start', 2) + rest) +
        bar(4, rest) +
        bar(5, rest),
    );
    expect(heard(found.score)).toBe('C3 | D3 | C3 | D3 | C3');
  });

  it('repeat one staff alone, in time, with chords', () => {
    const lower = (inner: string): string => `<backup><duration>4</duration></backup>${inner}`;
    const chord = note('G', 2, '<staff>2</staff>', 3).replace('<note>', '<note><chord/>');
    const found = read(
      bar(
        1,
        `${first('<staves>2</staves>')}${note('C', 4, '<staff>1</staff>')}${lower(note('E', 2, '<staff>2</staff>', 3) + chord + note('F', 2, '<staff>2</staff>', 3))}`,
      ) +
        bar(
          2,
          `<attributes><measure-style number="2"><measure-repeat type="start">1</measure-repeat></measure-style></attributes>${note('D', 4, '<staff>1</staff>')}${lower(rest.replace('</note>', '<staff>2</staff></note>'))}`,
        ),
    );
    expect(heard(found.score)).toBe('C3 G2 E2 F2 | D3 G2 E2 F2');
    const second = found.score.notes.slice(4).map(({ onsetTicks }) => onsetTicks / found.score.ticksPerQuarter);
    expect(second).toEqual([4, 4, 4, 6]);
  });

  it.each([
    [
      'ends with the bar where it stops behind the rest',
      [repeat('start') + rest + repeat('stop'), rest, note('E', 4)],
      'C3 | C3 |  | E3',
    ],
    [
      'ends with a bar of its own notes where nothing stops it',
      [repeat('start') + rest, note('E', 4), rest],
      'C3 | C3 | E3 | ',
    ],
    [
      'begins again in the bar where another stops',
      [repeat('start') + rest, repeat('stop') + repeat('start') + rest, repeat('stop') + rest],
      'C3 | C3 | C3 | ',
    ],
    [
      'holds where the divisions are said again',
      [repeat('start').replace('<attributes>', '<attributes><divisions>1</divisions>') + rest],
      'C3 | C3',
    ],
  ])('%s', (_, contents, expected) => {
    const bars = [first() + note('C', 4), ...contents].map((content, index) => bar(index + 1, content));
    expect(heard(read(bars.join('')).score)).toBe(expected);
  });

  it('are told where time is counted otherwise by then', () => {
    const other = repeat('start').replace('<attributes>', '<attributes><divisions>2</divisions>');
    const found = read(bar(1, first() + note('C', 4)) + bar(2, other + rest.replace('4', '8')));
    expect(told(found).join(' ')).toContain('could not be written out: 2.');
  });

  it('are told where there is nothing to repeat', () => {
    const found = read(bar(1, `${first()}${repeat('start')}${rest}`) + bar(2, note('C', 4)));
    expect(told(found).join(' ')).toContain('could not be written out: 1.');
  });
});

// MusicXML 4.0, key: non-traditional signatures by key-step and key-alter, from memory.
describe('key signatures that list their own alterations', () => {
  const keyed = (...alters: readonly (readonly [string, number])[]): ReadScore => {
    const key = alters.map(([step, alter]) => `<key-step>${step}</key-step><key-alter>${alter}</key-alter>`).join('');
    return read(bar(1, `${first().replace('<fifths>0</fifths>', key)}${note('C', 4)}`));
  };

  it.each([
    [[['F', 1]], 1, false],
    [
      [
        ['B', -1],
        ['E', -1],
      ],
      -2,
      false,
    ],
    [
      [
        ['F', 1],
        ['B', -1],
      ],
      1,
      true,
    ],
    [
      [
        ['B', -1],
        ['C', 1],
        ['E', -1],
      ],
      -2,
      true,
    ],
    [[['F', 0.5]], 0, true],
  ] as const)('become the nearest usual one: %j is %i', (alters, fifths, isTold) => {
    const found = keyed(...alters);
    expect(found.score.bars[0]?.key.fifths).toBe(fifths);
    expect(told(found).some((detail) => detail.includes('nearest usual one'))).toBe(isTold);
  });
});

describe('strings that are set up anew within a piece', () => {
  const tuning = (pitches: readonly (readonly [string, number])[]): string =>
    pitches
      .map(
        ([step, octave], index) =>
          `<staff-tuning line="${index + 1}"><tuning-step>${step}</tuning-step><tuning-octave>${octave}</tuning-octave></staff-tuning>`,
      )
      .join('');
  const standard = tuning([
    ['E', 2],
    ['A', 2],
    ['D', 3],
    ['G', 3],
    ['B', 3],
    ['E', 4],
  ]);
  const dropped = tuning([
    ['D', 2],
    ['A', 2],
    ['D', 3],
    ['G', 3],
    ['B', 3],
    ['E', 4],
  ]);
  const details = (inner: string): string => `<attributes><staff-details>${inner}</staff-details></attributes>`;
  const place = (string: number, fret?: number): string =>
    `<notations><technical><string>${string}</string>${fret === undefined ? '' : `<fret>${fret}</fret>`}</technical></notations>`;

  it('read a string without a fret in the tuning of its place', () => {
    const found = read(
      bar(
        1,
        `${first(`<staff-details>${standard}</staff-details><transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>`)}${note('E', 4, place(6), 3)}`,
      ) + bar(2, `${details(dropped)}${note('E', 4, place(6), 3)}`),
    );
    expect(found.score.notes.map(({ fingerboard }) => fingerboard?.fret)).toEqual([0, 2]);
    const issue = found.issues.find(({ detail }) => detail.includes('tuning changes'));
    expect(issue?.where).toMatchObject({ kind: 'music', barOrdinal: 2, beat: 1 });
  });

  it('sound higher after a move of the capo where they are written in shapes', () => {
    const found = read(
      bar(1, `${first(`<staff-details>${standard}</staff-details>`)}${note('E', 4, place(1, 0), 4)}`) +
        bar(2, `${details('<capo>2</capo>')}${note('E', 4, place(1, 0), 4)}`) +
        bar(3, `${details('<capo>0</capo>')}${note('E', 4, place(1, 0), 4)}`),
    );
    expect(heard(found.score)).toBe('E4 | F#4 | E4');
    expect(told(found)).toContain('The capo moves to fret 2 here; the music after it was read with it.');
  });

  it('stay where they are written after a move of the capo where pitches are the sounding ones', () => {
    const sharp = note('F', 4, place(1, 0), 4).replace('<octave>', '<alter>1</alter><octave>');
    const found = read(
      bar(1, `${first(`<staff-details>${standard}</staff-details>`)}${note('E', 4, place(1, 0), 4)}`) +
        bar(2, `${details('<capo>2</capo>')}${sharp}`),
    );
    expect(heard(found.score)).toBe('E4 | F#4');
  });
});

// MusicXML 4.0, hammer-on, pull-off, slide: start and stop, from memory.
describe('signs that lead to no second note', () => {
  const technical = (name: string, type: string): string =>
    `<notations><technical><${name} type="${type}" number="1"/></technical></notations>`;
  const slide = (type: string): string => `<notations><slide type="${type}" number="1"/></notations>`;
  const unresolved = ({ issues }: ReadScore): (readonly [string, unknown])[] =>
    issues.flatMap(({ code, detail, where }) => (code === 'span-unresolved' ? [[detail, where] as const] : []));

  it('are told with bar and beat', () => {
    const found = read(bar(1, `${first()}${note('C', 2)}${note('D', 2, technical('hammer-on', 'start'))}`));
    expect(unresolved(found)).toEqual([
      [
        expect.stringContaining('A hammer-on begins here that never ends'),
        expect.objectContaining({ barOrdinal: 1, beat: 3 }),
      ],
    ]);
    const ended = read(bar(1, `${first()}${note('C', 2)}${note('D', 2, technical('pull-off', 'stop'))}`));
    expect(unresolved(ended)[0]?.[0]).toContain('begins nowhere');
    expect(ended.score.notes[1]?.techniques).toEqual(['pullOff']);
  });

  it('slide out of their note', () => {
    const found = read(bar(1, `${first()}${note('C', 2, slide('start'))}${note('D', 2)}`));
    expect(found.score.notes[0]?.techniques).toEqual(['slideOut']);
    expect(unresolved(found)).toHaveLength(1);
  });

  it('are quiet where they are whole', () => {
    const found = read(
      bar(
        1,
        `${first()}${note('C', 2, slide('start'))}${note('D', 2, slide('stop') + technical('hammer-on', 'start'))}`,
      ) + bar(2, note('E', 4, technical('hammer-on', 'stop'))),
    );
    expect(unresolved(found)).toEqual([]);
    expect(found.score.notes.map(({ techniques }) => techniques.join())).toEqual(['', 'slide', 'hammerOn']);
  });
});
