import { strToU8, zipSync, type Zippable } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tinyScore } from '../../tests/support/tiny-musicxml.ts';
import type { Issue } from '../basis/issue.ts';
import { readNormalised, readMusicXml, type ReadScore } from './musicxml/read-score.ts';

const source = { fileName: 'hostile', firstNoteNumber: 1, firstBarNumber: 1 };

function refusalOf(bytes: Uint8Array): Issue {
  const result = readMusicXml(bytes, source);
  if (result.ok) throw new Error('the file was read');
  expect(result.refusal).toHaveLength(1);
  return result.refusal[0]!;
}

function readText(text: string): ReadScore {
  const result = readMusicXml(strToU8(text), source);
  if (!result.ok) throw new Error(JSON.stringify(result.refusal));
  return result.value;
}

const score = tinyScore(['C4:w | D4:w']);
const container = (path: string): Uint8Array =>
  strToU8(`<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);
const packed = (files: Zippable): Uint8Array => zipSync(files);
const hundredMegabytes = (): Uint8Array => new Uint8Array(100 * 1024 * 1024).fill(32);
const withScore = (text: Uint8Array): Uint8Array =>
  packed({ 'META-INF/container.xml': container('score.xml'), 'score.xml': text });
const changed = (from: string | RegExp, to: string): string => score.replace(from, to);

describe('files that are refused', () => {
  const entities = Array.from(
    { length: 20 },
    (_, index) => `<!ENTITY e${index + 1} "${`&e${index};`.repeat(10)}">`,
  ).join('');
  const deep = `<score-partwise>${'<a>'.repeat(10_000)}${'</a>'.repeat(10_000)}</score-partwise>`;
  const wide = `<score-partwise><part-list/><part id="P1"><measure number="1">${'<note><rest/><duration>1</duration></note>'.repeat(50_001)}</measure></part></score-partwise>`;
  const cases: readonly (readonly [string, () => Uint8Array, Issue['code']])[] = [
    ['nothing', () => new Uint8Array(), 'file-unreadable'],
    ['zero bytes', () => new Uint8Array(1000), 'file-unsupported'],
    ['random bytes', () => new Uint8Array(1000).map((_, index) => (index * 7919 + 131) % 256), 'file-unreadable'],
    ['plain words', () => strToU8('This is not music.'), 'file-unsupported'],
    [
      'a web page',
      () => strToU8('<!DOCTYPE html><html><head><title>Music</title></head><body></body></html>'),
      'file-unsupported',
    ],
    [
      'a web page that is no XML',
      () => strToU8('<!DOCTYPE html><html><head><meta charset=utf-8><br></head>'),
      'markup-broken',
    ],
    ['a score cut short', () => strToU8(score.slice(0, score.length / 2)), 'markup-broken'],
    ['a NUL within', () => strToU8(changed('<part-list>', '\u0000<part-list>')), 'markup-broken'],
    [
      'entities that grow',
      () =>
        strToU8(
          `<!DOCTYPE score-partwise [<!ENTITY e0 "ha">${entities}]>${score.replace('<?xml version="1.0"?>', '').replace('Music', '&e20;')}`,
        ),
      'document-type-refused',
    ],
    [
      'an entity from outside',
      () =>
        strToU8(
          '<!DOCTYPE score-partwise [<!ENTITY e SYSTEM "file:///etc/passwd">]><score-partwise>&e;</score-partwise>',
        ),
      'document-type-refused',
    ],
    ['an unknown entity', () => strToU8(changed('Music', '&e;')), 'markup-broken'],
    ['ten thousand elements within each other', () => strToU8(deep), 'nesting-too-deep'],
    ['more than fifty thousand notes', () => strToU8(wide), 'too-many-notes'],
    [
      'an encoding that is not known',
      () => strToU8(changed('<?xml version="1.0"?>', '<?xml version="1.0" encoding="EBCDIC-CP-US"?>')),
      'file-unsupported',
    ],
    ['a score without bars', () => strToU8('<score-partwise><part-list/><part id="P1"/></score-partwise>'), 'no-music'],
    ['a list of scores', () => strToU8('<opus><title>All</title></opus>'), 'file-unsupported'],
    ['an archive cut short', () => withScore(strToU8(score)).slice(0, 200), 'file-unreadable'],
    ['an archive of pictures', () => packed({ 'a.png': new Uint8Array(10) }), 'file-unsupported'],
    [
      'an archive that names a score it does not hold',
      () => packed({ 'META-INF/container.xml': container('other.xml'), 'a.png': new Uint8Array(10) }),
      'file-unreadable',
    ],
    [
      'an archive that names a score it does not hold, and holds two others',
      () =>
        packed({
          'META-INF/container.xml': container('other.xml'),
          'a.xml': strToU8(score),
          'b.xml': strToU8(score),
        }),
      'file-unreadable',
    ],
    [
      'an archive whose container names nothing',
      () => packed({ 'META-INF/container.xml': strToU8('<container/>') }),
      'file-unreadable',
    ],
    ['an archive that unpacks to a hundred megabytes', () => withScore(hundredMegabytes()), 'file-too-large'],
    [
      'an archive that unpacks to two thousand times its size',
      () => withScore(new Uint8Array(20 * 1024 * 1024).fill(32)),
      'file-too-large',
    ],
  ];

  it.each(cases)('%s', (_, bytes, code) => {
    const issue = refusalOf(bytes());
    expect(issue).toMatchObject({ code, severity: 'error' });
    expect(issue.detail).toMatch(/[.!]$/);
  });

  it('say where broken markup stands', () => {
    const issue = refusalOf(strToU8('<score-partwise>\n  <part-list>\n  </part>\n</score-partwise>'));
    expect(issue.where).toMatchObject({ kind: 'text', lineNumber: 3 });
  });

  it('name the limit that was passed', () => {
    expect(
      refusalOf(new Uint8Array(11 * 1024 * 1024).fill(7, 4).map((byte, index) => [0x50, 0x4b, 3, 4][index] ?? byte))
        .detail,
    ).toContain('10 MB');
    expect(refusalOf(withScore(hundredMegabytes())).detail).toContain('64 MB');
  });
});

describe('notes that cannot be believed', () => {
  it.each([
    ['no duration', /<duration>96<\/duration>/, '', 'duration-missing'],
    ['a negative duration', '<duration>96', '<duration>-96', 'duration-missing'],
    ['an endless duration', '<duration>96', '<duration>1e300', 'duration-missing'],
    ['a duration in words', '<duration>96', '<duration>long', 'duration-missing'],
    ['no pitch', /<pitch>.*?<\/pitch>/, '', 'pitch-missing'],
    ['a pitch that does not exist', '<step>C', '<step>H', 'pitch-missing'],
    ['an octave that nobody hears', '<octave>4', '<octave>400', 'pitch-missing'],
  ])('with %s are left out and told, with bar and beat', (_, from, to, code) => {
    const { score: read, issues } = readText(changed(from, to));
    expect(read.notes).toHaveLength(1);
    expect(issues.find((issue) => issue.code === code)).toMatchObject({
      where: { kind: 'music', barOrdinal: 1, beat: 1 },
    });
  });

  it.each([['<divisions>0</divisions>'], ['<divisions>-4</divisions>'], ['<divisions>many</divisions>'], ['']])(
    'under %s are measured in quarters, and told',
    (divisions) => {
      const { issues } = readText(changed('<divisions>24</divisions>', divisions));
      expect(issues.map(({ code }) => code)).toContain('value-repaired');
    },
  );

  it('are kept under huge divisions', () => {
    const { score: read } = readText(
      changed('<divisions>24', '<divisions>1000000000').replaceAll('<duration>96', '<duration>4000000000'),
    );
    expect(
      read.notes.map(({ onsetTicks, lengthTicks }) => [
        onsetTicks / read.ticksPerQuarter,
        lengthTicks / read.ticksPerQuarter,
      ]),
    ).toEqual([
      [0, 4],
      [4, 4],
    ]);
  });

  it('after a backup that goes too far begin with the bar', () => {
    const { score: read, issues } = readText(changed('<note>', '<backup><duration>999</duration></backup><note>'));
    expect(read.notes[0]!.onsetTicks).toBe(0);
    expect(issues.map(({ code }) => code)).toContain('value-repaired');
  });
});

describe('any damage', () => {
  const bytes = strToU8(
    tinyScore(['v1s1 C4:q< D4:q E4+G4:h@1/3 ; v2s2 C4:w@5/3 | x:h F4:eg C4:h>', { name: 'Guitar' }]),
  );
  it('is answered, never thrown', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(bytes.length - 1), fc.nat(255)), { maxLength: 12 }),
        fc.nat(bytes.length),
        (changes, cut) => {
          const damaged = bytes.slice(0, cut < bytes.length / 4 ? bytes.length : cut);
          for (const [at, byte] of changes) if (at < damaged.length) damaged[at] = byte;
          const result = readMusicXml(damaged, source);
          if (result.ok) expect(readNormalised(result.value.normalisedXml).value).toEqual(result.value.score);
          else expect(result.refusal.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500, seed: 20261125 },
    );
  });

  it('to a packed file is answered, never thrown', () => {
    const archive = withScore(bytes);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(archive.length - 1), fc.nat(255)), { minLength: 1, maxLength: 6 }),
        (changes) => {
          const damaged = archive.slice();
          for (const [at, byte] of changes) damaged[at] = byte;
          const result = readMusicXml(damaged, source);
          expect(typeof result.ok).toBe('boolean');
        },
      ),
      { numRuns: 500, seed: 20261125 },
    );
  });

  it('makes an empty score of a text that was never normalised', () => {
    expect(readNormalised('nothing')).toMatchObject({
      value: { notes: [], bars: [] },
      issues: [{ code: 'file-unsupported' }],
    });
  });
});
