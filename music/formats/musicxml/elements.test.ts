import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { elementFates } from './elements.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(...bars: readonly string[]): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(measuresXml(bars)), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const page = readFileSync(new URL('../../../docs/musicxml.md', import.meta.url), 'utf8');
const note = (more = ''): string =>
  `<note><pitch><step>C</step><octave>4</octave></pitch><duration>48</duration>${more}</note>`;
const within = (name: string): string => note(`<notations><${name}/></notations>`);

describe('the table of elements in docs/musicxml.md', () => {
  it('says what the reader does', () => {
    const rows = [...page.matchAll(/^\| `([a-z][a-z\d-]*)` \| (read|kept|ignored) \|$/gm)];
    expect(rows.map(([, name, fate]) => [name, fate])).toEqual([...elementFates].sort(([a], [b]) => (a < b ? -1 : 1)));
  });
});

describe('the import report', () => {
  it('names every element that is kept in the document alone, and no other', () => {
    const told: [string, boolean][] = [];
    for (const name of elementFates.keys()) {
      const { issues } = read(note() + within(name));
      told.push([name, issues.some(({ code, detail }) => code === 'element-kept' && detail.startsWith(`“${name}”`))]);
    }
    expect(told).toEqual([...elementFates].map(([name, fate]) => [name, fate === 'kept']));
  });

  it('names an element once, at its first place, with its count', () => {
    const slide = note('<notations><ornaments><schleifer/></ornaments></notations>');
    const { issues } = read(note() + note(), note() + slide, slide + slide);
    expect(issues).toEqual([
      {
        code: 'element-kept',
        severity: 'note',
        where: { kind: 'music', part: 'Flute', barOrdinal: 2, barLabel: '2', beat: 3 },
        detail: '“schleifer” stands here (3 times in all) and is kept in the document alone.',
      },
    ]);
  });

  it('names elements that MusicXML 4.0 does not have, wherever they stand', () => {
    const { issues } = read(`${note('<sparkle/>')}<glow><shine/></glow>${note()}`);
    expect(issues.map(({ code, detail }) => [code, /“(.*?)”/.exec(detail)![1]])).toEqual([
      ['element-unknown', 'sparkle'],
      ['element-unknown', 'glow'],
    ]);
  });

  it('names cue notes, which are in no count', () => {
    const cue = '<note><cue/><pitch><step>E</step><octave>4</octave></pitch><duration>48</duration></note>';
    const { issues, score } = read(note() + cue);
    expect(score.notes).toHaveLength(1);
    expect(issues.map(({ code, detail }) => [code, /“(.*?)”/.exec(detail)![1]])).toEqual([['element-kept', 'cue']]);
  });
});
