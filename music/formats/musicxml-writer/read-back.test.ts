import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { noteId } from '../../basis/ids.ts';
import { fourVoices, oneGuitar, stringQuartet } from '../../lines/ensembles.ts';
import { writeOut } from '../../lines/write-out.ts';
import type { LengthMode } from '../../lines/lengths.ts';
import { excerptOfBars } from '../../score/excerpt.ts';
import type { Score } from '../../score/score.ts';
import type { HeadDetails, WrittenJoin, WrittenScore } from '../../score/written.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { anyTwoVoices } from '../../../tests/support/any-score.ts';
import { splitByVoice } from '../../../tests/support/split-by-voice.ts';
import { anyMarkedScore } from '../../../tests/support/any-marked-score.ts';
import { heardInParts, heardOnStaves } from '../../../tests/support/heard.ts';
import { musicXmlFaults } from '../../../tests/support/musicxml-check.ts';
import { fixedSeed } from '../../../tests/support/property-seed.ts';
import { allOn } from '../../../tests/support/split-builders.ts';
import { sourceOfWrittenHead } from './written-ids.ts';
import { writeWrittenScore } from './write-written-score.ts';

function writtenOf(score: Score, lengths: LengthMode, tablature = false): WrittenScore {
  const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
  return writeOut(score, allOn(score), whole, { lengths, tablature }).value;
}

function readBack(xml: string): Extract<ReturnType<typeof readMusicXml>, { ok: true }>['value'] {
  const source = { fileName: 'written', firstNoteNumber: 1, firstBarNumber: 1 };
  const read = readMusicXml(new TextEncoder().encode(xml), source);
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

const byKind = (a: WrittenJoin, b: WrittenJoin): number =>
  a.kind.localeCompare(b.kind) || a.edge.localeCompare(b.edge) || a.number - b.number;

/** Joins in one order; those of a chord may be numbered from above or from below. */
const sortedJoins = (joins: readonly WrittenJoin[]): readonly WrittenJoin[] =>
  joins.map((join) => (join.kind === 'slur' ? join : { ...join, number: 1 })).sort(byKind);

const sortedDetails = (details: HeadDetails | null): HeadDetails | null =>
  details === null
    ? null
    : { ...details, techniques: details.techniques.toSorted(), joins: sortedJoins(details.joins) };

/** All that is printed, heads and grace notes by the notes of the first score. */
function printed({ bars, staves }: WrittenScore, nameOf: (source: string) => string): unknown {
  return {
    bars: bars.map(({ lengthTicks, meter, key, isPartial, signs, directions }) => [
      ...[lengthTicks, meter, key, isPartial, signs, directions],
    ]),
    staves: staves.map(({ clef, clefChanges, tablature, directions, bars: events }) => ({
      clef,
      clefChanges,
      tablature,
      directions,
      events: events.map((list) =>
        list.map((event) => ({
          ...event,
          heads: event.heads
            .map((head) => ({ ...head, source: nameOf(head.source), details: sortedDetails(head.details) }))
            .sort((a, b) => (a.source < b.source ? -1 : 1)),
          graces: event.graces.map((grace) => ({
            ...grace,
            source: nameOf(grace.source),
            joins: sortedJoins(grace.joins),
          })),
        })),
      ),
    })),
  };
}

/** The written-out score after it was written as MusicXML, read, and written out once more. */
function again(written: WrittenScore, tablature = false): unknown {
  const { score, sourceIds } = readBack(writeWrittenScore(written));
  const heads = new Map([...score.notes, ...score.graces].map(({ id, heads: [first] }) => [id as string, first!]));
  const nameOf = (source: string): string => sourceOfWrittenHead(sourceIds.get(heads.get(source)!) ?? '') ?? source;
  return printed(writtenOf(score, 'written', tablature), nameOf);
}

const anyLengths = fc.constantFrom<LengthMode>('written', 'next', 'string');

describe('read(write(x)) = x', () => {
  it('for any line with grace notes, slurs, lyrics, dynamics, signs of playing, repeats and jumps', () => {
    fc.assert(
      fc.property(anyMarkedScore(false), anyLengths, (score, lengths) => {
        const written = writtenOf(score, lengths);
        expect(again(written)).toEqual(printed(written, (source) => noteId(source)));
      }),
      { seed: fixedSeed, numRuns: 150 },
    );
  });

  it('for any line with its strings under it', () => {
    fc.assert(
      fc.property(anyMarkedScore(true), (score) => {
        const written = writtenOf(score, 'written', true);
        expect(again(written, true)).toEqual(printed(written, (source) => noteId(source)));
      }),
      { seed: fixedSeed, numRuns: 100 },
    );
  });
});

describe('read(write(x)) = x for several lines', () => {
  it.each([null, oneGuitar, fourVoices, stringQuartet])('sounds the same on every staff: %o', (ensemble) => {
    fc.assert(
      fc.property(anyTwoVoices, (score) => {
        const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
        const options = { lengths: 'written', ...(ensemble === null ? {} : { ensemble }) } as const;
        const { value } = writeOut(score, splitByVoice(score), whole, options);
        expect(heardInParts(readBack(writeWrittenScore(value)).score)).toEqual(heardOnStaves(value));
      }),
      { seed: fixedSeed, numRuns: 15 },
    );
  });
});

describe('validity', () => {
  it('holds for anything written: order, content and values of MusicXML 4.0', () => {
    fc.assert(
      fc.property(anyMarkedScore(true), anyLengths, fc.boolean(), (score, lengths, tablature) => {
        expect(musicXmlFaults(writeWrittenScore(writtenOf(score, lengths, tablature)))).toEqual([]);
      }),
      { seed: fixedSeed, numRuns: 100 },
    );
  });

  it.each([
    ['a wrong order', '<note><duration>1</duration><rest/></note>', /<note> holds: duration rest/],
    ['a wrong value', '<note><rest/><duration>-1</duration></note>', /<duration> says “-1”/],
    ['an attribute that is none', '<note colour="red"><rest/><duration>1</duration></note>', /colour="red"/],
    ['an element that is missing', '<note><pitch><step>C</step></pitch><duration>1</duration></note>', /<pitch> holds/],
    ['an id that stands twice', '<note id="P1"><rest/><duration>1</duration></note>', /P1 stands twice/],
  ])('is not granted to %s', (_what, note, fault) => {
    const list = '<part-list><score-part id="P1"><part-name>A</part-name></score-part></part-list>';
    const part = `<part id="P1"><measure number="1">${note}</measure></part>`;
    const faults = musicXmlFaults(`<score-partwise version="4.0">${list}${part}</score-partwise>`);
    expect(faults.join('; ')).toMatch(fault);
  });
});
