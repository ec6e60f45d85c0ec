import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barId, lineId, noteId } from '../../basis/ids.ts';
import { midiOf, pitchOfMidi } from '../../basis/pitch.ts';
import type { HitKind, Meter } from '../../score/score.ts';
import type {
  NoteValue,
  WrittenBar,
  WrittenEvent,
  WrittenHead,
  WrittenScore,
  WrittenStaff,
} from '../../score/written.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { childOf, childrenOf, childText, elementsOf, textOf, type XmlElement } from '../xml/tree.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { sourceOfWrittenHead } from './written-ids.ts';
import { writeWrittenScore } from './write-written-score.ts';
import { musicXmlFaults } from '../../../tests/support/musicxml-check.ts';

const ticksPerQuarter = 24;
const lengths: Readonly<Record<string, number>> = { whole: 96, half: 48, quarter: 24, eighth: 12, '16th': 6 };

const value = (type: NoteValue['type'], dots = 0, tuplet: NoteValue['tuplet'] = null): NoteValue => ({
  type,
  dots,
  tuplet,
});

const pitched = (midi: number, source = `n${midi}`): WrittenHead => ({
  source: noteId(source),
  sound: { kind: 'pitched', pitch: pitchOfMidi(midi, 0) },
  fingerboard: null,
  isTiedFromBefore: false,
  isTiedOn: false,
  details: null,
});
const hit = (kind: HitKind, source: string): WrittenHead => ({
  ...pitched(60, source),
  sound: { kind: 'hit', hit: kind },
});

/** Events one after the other: `[heads, type, dots]`; no heads are a rest. */
function bar(
  ...rows: readonly (readonly [readonly WrittenHead[], NoteValue, Partial<WrittenEvent>?])[]
): WrittenEvent[] {
  let onsetTicks = 0;
  return rows.map(([heads, noteValue, more]) => {
    const plain = (lengths[noteValue.type] ?? 0) * (2 - 0.5 ** noteValue.dots);
    const lengthTicks = noteValue.tuplet === null ? plain : (plain * noteValue.tuplet.normal) / noteValue.tuplet.actual;
    const event = {
      ...{ onsetTicks, lengthTicks, value: noteValue, tupletEdge: null, innerTuplet: null, isBarRest: false, heads },
      graces: [],
      ...more,
    };
    onsetTicks += lengthTicks;
    return event;
  });
}

const barRest = (lengthTicks: number): WrittenEvent[] => [
  {
    ...{ onsetTicks: 0, lengthTicks, value: value('whole'), tupletEdge: null, innerTuplet: null, isBarRest: true },
    heads: [],
    graces: [],
  },
];

const fourFour: Meter = { beats: [4], beatUnit: 4 };
const writtenBar = (ordinal: number, more: Partial<WrittenBar> = {}): WrittenBar => ({
  bar: barId(`b${ordinal}`),
  label: String(ordinal),
  lengthTicks: 96,
  meter: fourFour,
  key: { fifths: 0, mode: 'major' },
  isPartial: false,
  signs: { startsRepeat: false, repeatTimes: 0, repeatsAfterJump: false, endings: [], jumps: [], rehearsalMark: null },
  directions: [],
  ...more,
});

const staff = (bars: readonly (readonly WrittenEvent[])[], more: Partial<WrittenStaff> = {}): WrittenStaff => ({
  line: lineId('l1'),
  name: 'Melody',
  letter: 'M',
  clef: { sign: 'G', staffLine: 2, octave: -1 },
  clefChanges: [],
  transposition: null,
  tablature: null,
  directions: bars.map(() => []),
  bars,
  ...more,
});

const score = (bars: readonly WrittenBar[], ...staves: readonly WrittenStaff[]): WrittenScore => ({
  title: 'Études & <more>',
  composer: '',
  ticksPerQuarter,
  bars,
  staves,
});

function rootOf(xml: string): XmlElement {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value.root;
}

const notesOf = (xml: string): XmlElement[] =>
  childrenOf(rootOf(xml), 'part').flatMap((part) =>
    childrenOf(part, 'measure').flatMap((measure) => childrenOf(measure, 'note')),
  );

function readBack(xml: string): Extract<ReturnType<typeof readMusicXml>, { ok: true }>['value'] {
  const read = readMusicXml(new TextEncoder().encode(xml), {
    fileName: 'written',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

describe('writeWrittenScore', () => {
  // General MIDI Level 1: percussion on channel 10, bass drum 1 at key 36; from memory. MusicXML counts keys from 1.
  it('says how other programs sound its hits', () => {
    const beats = bar([[hit('lowBody', 'n1')], value('whole')]);
    const xml = writeWrittenScore(score([writtenBar(1)], staff([beats], { clef: { sign: 'percussion' } })));
    expect(xml).toContain(
      '<midi-instrument id="P1-lowBody"><midi-channel>10</midi-channel><midi-unpitched>37</midi-unpitched></midi-instrument>',
    );
    expect(musicXmlFaults(xml)).toEqual([]);
  });

  it('[backbeat] writes hits on two and four as rest, hit, rest, hit (common practice, no source)', () => {
    const quarter = value('quarter');
    const beats = bar(
      [[], quarter],
      [[hit('lowBody', 'n1')], quarter],
      [[], quarter],
      [[hit('lowBody', 'n2')], quarter],
    );
    const notes = notesOf(writeWrittenScore(score([writtenBar(1)], staff([beats], { clef: { sign: 'percussion' } }))));
    expect(notes.map((note) => (childOf(note, 'rest') === undefined ? childText(note, 'notehead') : 'rest'))).toEqual([
      'rest',
      'x',
      'rest',
      'x',
    ]);
  });

  it('links every head to its note, a note that is tied over a barline by two ids', () => {
    const tied = { ...pitched(64, 'n7'), isTiedOn: true };
    const end = { ...pitched(64, 'n7'), isTiedFromBefore: true };
    const xml = writeWrittenScore(
      score([writtenBar(1), writtenBar(2)], staff([bar([[tied], value('whole')]), bar([[end], value('whole')])])),
    );
    const ids = notesOf(xml).map((note) => note.attributes['id'] ?? '');
    expect(ids).toEqual(['w.n7.1', 'w.n7.2']);
    expect(ids.map(sourceOfWrittenHead)).toEqual(['n7', 'n7']);
    expect(sourceOfWrittenHead('n7')).toBeNull();
    expect(readBack(xml).score.notes.map(({ lengthTicks }) => lengthTicks)).toEqual([192]);
  });

  it('beams within beats and leaves rests and longer notes out', () => {
    const eighth = value('eighth');
    const sixteenth = value('16th');
    const beats = bar(
      [[pitched(60)], eighth],
      [[pitched(62)], eighth],
      [[pitched(64)], eighth],
      [[pitched(65)], sixteenth],
      [[pitched(67)], sixteenth],
      [[pitched(60)], value('quarter')],
      [[], eighth],
      [[pitched(62)], eighth],
    );
    const beams = notesOf(writeWrittenScore(score([writtenBar(1)], staff([beats])))).map((note) =>
      childrenOf(note, 'beam').map(textOf).join('/'),
    );
    expect(beams).toEqual(['begin', 'end', 'begin', 'continue/begin', 'end/end', '', '', '']);
  });

  it.each([
    ['6/8', [6], 8, 72, 'begin continue end begin continue end'],
    ['3/4', [3], 4, 72, 'begin end begin end begin end'],
    ['3+2/8', [3, 2], 8, 60, 'begin continue end begin end'],
    ['4/8', [4], 8, 48, 'begin end begin end'],
  ])('beams eighths in %s', (_, beats, beatUnit, lengthTicks, wanted) => {
    const events = bar(...Array.from({ length: lengthTicks / 12 }, () => [[pitched(60)], value('eighth')] as const));
    const written = score([writtenBar(1, { meter: { beats, beatUnit }, lengthTicks })], staff([events]));
    expect(
      notesOf(writeWrittenScore(written))
        .map((note) => childText(note, 'beam'))
        .join(' '),
    ).toBe(wanted);
  });

  it('prints accidentals where the key or the bar so far says otherwise', () => {
    const quarter = value('quarter');
    const events = bar(
      [[pitched(61)], quarter],
      [[pitched(61)], quarter],
      [[pitched(60)], quarter],
      [[pitched(73)], quarter],
    );
    const notes = notesOf(writeWrittenScore(score([writtenBar(1)], staff([events]))));
    expect(notes.map((note) => childText(note, 'accidental'))).toEqual(['sharp', '', 'natural', 'sharp']);
  });

  it('writes a bar rest, an upbeat bar and a change of meter', () => {
    const bars = [
      writtenBar(0, { isPartial: true, lengthTicks: 24 }),
      writtenBar(1),
      writtenBar(2, { meter: { beats: [3], beatUnit: 4 }, lengthTicks: 72 }),
    ];
    const xml = writeWrittenScore(
      score(bars, staff([bar([[pitched(60)], value('quarter')]), barRest(96), barRest(72)])),
    );
    const { score: back, issues } = readBack(xml);
    expect(back.bars.map(({ lengthTicks, isImplicit, label }) => [lengthTicks, isImplicit, label])).toEqual([
      [24, true, '0'],
      [96, false, '1'],
      [72, false, '2'],
    ]);
    expect(back.title).toBe('Études & <more>');
    expect(issues).toEqual([]);
  });

  it('keeps the order of elements that the schema asks for', () => {
    /** **Source** MusicXML 4.0, W3C Community Group Final Report: content of note. */
    const order = [
      'chord',
      'pitch',
      'unpitched',
      'rest',
      'duration',
      'tie',
      'instrument',
      'voice',
      'type',
      'dot',
      'accidental',
      'time-modification',
      'stem',
      'notehead',
      'beam',
      'notations',
    ];
    const triplet = value('eighth', 0, { actual: 3, normal: 2 });
    const head = { ...pitched(61), isTiedOn: true };
    const events = bar(
      [[head, pitched(64)], triplet, { tupletEdge: 'start' }],
      [[], triplet],
      [[hit('highBody', 'n3')], triplet, { tupletEdge: 'stop' }],
      [[{ ...head, isTiedFromBefore: true, isTiedOn: false }], value('half', 1)],
    );
    for (const note of notesOf(writeWrittenScore(score([writtenBar(1)], staff([events]))))) {
      const ranks = elementsOf(note).map(({ name }) => order.indexOf(name));
      expect(ranks).not.toContain(-1);
      expect(ranks).toEqual(ranks.toSorted((a, b) => a - b));
    }
  });

  it('has an id for every bar, told apart where a bar stands twice', () => {
    const xml = writeWrittenScore(
      score([writtenBar(1), writtenBar(1)], staff([barRest(96), barRest(96)]), staff([barRest(96), barRest(96)])),
    );
    const ids = childrenOf(rootOf(xml), 'part').map((part) =>
      childrenOf(part, 'measure').map((measure) => measure.attributes['id']),
    );
    expect(ids).toEqual([
      ['b1', 'b1.2'],
      ['b1-p2', 'b1.2-p2'],
    ]);
  });
});

const types = ['half', 'quarter', 'eighth', '16th'] as const;
const anyHead = fc.oneof(
  fc.integer({ min: 40, max: 88 }).map((midi) => pitched(midi, `n${midi}`)),
  fc.constantFrom<HitKind>('lowBody', 'highBody', 'stringSlap', 'deadNote').map((kind) => hit(kind, `h${kind}`)),
);
const anyEvent = fc.tuple(
  fc.uniqueArray(anyHead, { maxLength: 3, selector: ({ source }) => source }),
  fc.constantFrom(...types),
);

/** Bars of 4/4 filled from any list of events, the rest of the bar made up with rests. */
const anyBar = fc.array(anyEvent, { maxLength: 10 }).map((rows): WrittenEvent[] => {
  const taken: (readonly [readonly WrittenHead[], NoteValue])[] = [];
  let left = 96;
  for (const [heads, type] of rows) {
    const ticks = lengths[type] ?? 0;
    if (ticks > left) continue;
    left -= ticks;
    taken.push([heads, value(type)]);
  }
  for (const type of types) {
    for (const ticks = lengths[type] ?? 0; left >= ticks; left -= ticks) taken.push([[], value(type)]);
  }
  return bar(...taken);
});
const anyScore = fc.array(anyBar, { minLength: 1, maxLength: 4 }).map((bars) =>
  score(
    bars.map((_, index) => writtenBar(index + 1)),
    staff(bars),
  ),
);

describe('read(write(score))', () => {
  it('finds every bar with its length, every head with its pitch and place', () => {
    fc.assert(
      fc.property(anyScore, (written) => {
        const { score: back, issues, sourceIds } = readBack(writeWrittenScore(written));
        expect(issues).toEqual([]);
        expect(back.bars.map(({ lengthTicks }) => lengthTicks)).toEqual(written.bars.map(() => 96));
        const theirs = back.notes.map(({ sound, onsetTicks, lengthTicks, heads }) =>
          [
            onsetTicks,
            lengthTicks,
            sound.kind === 'pitched' ? sound.soundingMidi : sound.hit,
            sourceOfWrittenHead(sourceIds.get(heads[0]!) ?? ''),
          ].join(' '),
        );
        const ours = written.staves.flatMap(({ bars }) =>
          bars.flatMap((events, index) =>
            events.flatMap(({ heads, onsetTicks, lengthTicks }) =>
              heads.map(({ sound, source }) =>
                [
                  96 * index + onsetTicks,
                  lengthTicks,
                  sound.kind === 'pitched' ? midiOf(sound.pitch) : sound.hit,
                  source,
                ].join(' '),
              ),
            ),
          ),
        );
        expect(theirs.toSorted()).toEqual(ours.toSorted());
      }),
      { numRuns: 150, seed: 20261125 },
    );
  });
});
