import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chord, line, meter, note, rest, voices, type Item } from '../../tests/support/score-builders.ts';
import type { Fingerboard, Score, SoundingNote } from '../score/score.ts';
import { widestSpan } from './hand.ts';
import { proposeFingering, type FingeringOptions } from './propose-fingering.ts';

const sharpNames = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];
/** The name of a MIDI note number: 60 is C4 (MIDI 1.0, note numbers). */
const nameOfMidi = (midi: number): string => `${sharpNames[midi % 12]}${Math.floor(midi / 12) - 1}`;
const standard: FingeringOptions = { tuning: [64, 59, 55, 50, 45, 40], capo: 0, mostFrets: 20 };
const common = meter(4, 4);

/** String and fret of each note in reading order, `-` where there is none. */
function told(score: Score, options = standard): string {
  const { value } = proposeFingering(score, options);
  return score.notes
    .map(({ id }) => value.get(id))
    .map((place) => (place === undefined ? '-' : `${place.string}/${place.fret}`))
    .join(' ');
}

const scale = (names: string): Score => line(common, ...names.split(' ').map((name) => note(name, 1)));

describe('usual places on the neck', () => {
  // Scales and chord shapes in open position: common practice, no source.
  it.each([
    ['C major', 'C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4', '5/3 4/0 4/2 4/3 3/0 3/2 2/0 2/1 2/3 1/0 1/1 1/3'],
    ['G major', 'G2 A2 B2 C3 D3 E3 F#3 G3 A3 B3 C4 D4', '6/3 5/0 5/2 5/3 4/0 4/2 4/4 3/0 3/2 2/0 2/1 2/3'],
    ['E minor, downwards', 'G4 F#4 E4 D4 C4 B3 A3 G3 F#3 E3', '1/3 1/2 1/0 2/3 2/1 2/0 3/2 3/0 4/4 4/2'],
  ])('the scale of %s in open position', (_, names, wanted) => {
    expect(told(scale(names))).toBe(wanted);
  });

  it.each([
    ['F with a barre', 'F4 C4 A3 F3 C3 F2', '1/1 2/1 3/2 4/3 5/3 6/1'],
    ['B minor with a barre', 'F#4 D4 B3 F#3 B2', '1/2 2/3 3/4 4/4 5/2'],
    ['G open', 'G4 B3 G3 D3 B2 G2', '1/3 2/0 3/0 4/0 5/2 6/3'],
    ['E open', 'E4 B3 G#3 E3 B2 E2', '1/0 2/0 3/1 4/2 5/2 6/0'],
    ['A minor', 'E4 C4 A3 E3 A2', '1/0 2/1 3/2 4/2 5/0'],
  ])('the chord %s', (_, names, wanted) => {
    const score = line(common, chord(names.split(' '), 4));
    expect(told(score)).toBe(wanted);
    expect(proposeFingering(score, standard).issues).toEqual([]);
  });

  it('a bass that sounds on keeps its string, and the hand stays where it is held', () => {
    const melody = ['B3', 'C4', 'D4', 'G4'].map((name) => note(name, 1));
    const score = voices(common, melody, [note('G2', 4)]);
    const { value, issues } = proposeFingering(score, standard);
    const places = [...value.values()];
    expect(issues).toEqual([]);
    expect(places).toContainEqual({ string: 6, fret: 3 });
    expect(places.filter(({ string }) => string === 6)).toHaveLength(1);
  });

  it('a natural harmonic is touched where it rings', () => {
    const score = line(
      common,
      note('E5', 2, { techniques: ['naturalHarmonic'] }),
      note('B5', 2, { techniques: ['naturalHarmonic'] }),
    );
    expect(told(score)).toBe('1/12 1/7');
  });
});

describe('string and fret tell the pitch', () => {
  // Open strings of the tunings by name and MIDI number, from memory. A note's MIDI number is the open string's plus the fret.
  it.each([
    ['standard', 'E4 B3 G3 D3 A2 E2', [64, 59, 55, 50, 45, 40]],
    ['dropped D', 'E4 B3 G3 D3 A2 D2', [64, 59, 55, 50, 45, 38]],
    ['DADGAD', 'D4 A3 G3 D3 A2 D2', [62, 57, 55, 50, 45, 38]],
    ['open G', 'D4 B3 G3 D3 G2 D2', [62, 59, 55, 50, 43, 38]],
  ])('%s: every note of the neck gets a place that sounds it, the open strings theirs', (_, names, tuning) => {
    expect(tuning.map(nameOfMidi).join(' ')).toBe(names);
    const open = told(line(common, chord(names.split(' '), 4)), { tuning, capo: 0, mostFrets: 20 });
    expect(open).toBe('1/0 2/0 3/0 4/0 5/0 6/0');
    const lowest = Math.min(...tuning);
    const count = Math.max(...tuning) + 20 - lowest + 1;
    const items = Array.from({ length: count }, (__, index) => note(nameOfMidi(lowest + index), 1));
    const score = line(common, ...items);
    const { value, issues } = proposeFingering(score, { tuning, capo: 0, mostFrets: 20 });
    expect(issues).toEqual([]);
    for (const { id, sound } of score.notes) {
      const { string, fret } = value.get(id)!;
      expect(sound).toMatchObject({ soundingMidi: tuning[string - 1]! + fret });
    }
  });

  it('with a capo, fret 0 is at the capo', () => {
    expect(told(scale('G4 D4'), { ...standard, capo: 3 })).toBe('1/0 2/0');
  });
});

describe('what cannot be played', () => {
  it('is told with bar and beat, and the rest gets places', () => {
    const score = line(common, rest(4), note('C4', 1), chord(['C4', 'C2'], 1), chord(['F2', 'B3', 'F#2'], 2));
    const { value, issues } = proposeFingering(score, standard);
    expect(issues.map(({ code, where, detail }) => [code, where, detail])).toEqual([
      [
        'note-unplayable',
        { kind: 'music', part: 'Guitar', barOrdinal: 2, barLabel: '2', beat: 2 },
        'One note finds no string here and got none.',
      ],
      [
        'note-unplayable',
        { kind: 'music', part: 'Guitar', barOrdinal: 2, barLabel: '2', beat: 3 },
        'One note finds no string here and got none.',
      ],
    ]);
    expect(value.size).toBe(4);
  });

  it('a stretch over more than five frets is told', () => {
    const { issues } = proposeFingering(line(common, chord(['F2', 'D5'], 4)), standard);
    expect(issues.map(({ detail }) => detail)).toEqual(['The hand would have to span more than 5 frets here.']);
  });
});

describe('any music', () => {
  const names = ['E2', 'G2', 'A2', 'C3', 'D3', 'F3', 'G3', 'A3', 'B3', 'C#4', 'E4', 'F#4', 'A4', 'C5', 'D5'];
  const item = fc
    .tuple(fc.uniqueArray(fc.constantFrom(...names), { maxLength: 4 }), fc.constantFrom(0.5, 1, 2))
    .map(([pitches, quarters]): Item => (pitches.length === 0 ? rest(quarters) : chord(pitches, quarters)));
  const score = fc
    .tuple(fc.array(item, { minLength: 1, maxLength: 10 }), fc.array(item, { maxLength: 10 }))
    .map(([a, b]) => voices(common, a, b));

  interface Sounding {
    readonly note: SoundingNote;
    readonly place: Fingerboard;
  }

  const endOf = ({ onsetTicks, lengthTicks }: SoundingNote): number => onsetTicks + lengthTicks;

  it('gets the right pitches, no string twice while it sounds, and no grip out of reach, unless an issue says so there', () => {
    fc.assert(
      fc.property(score, (piece) => {
        const { value, issues } = proposeFingering(piece, standard);
        const placed = piece.notes.flatMap((each): Sounding[] => {
          const place = value.get(each.id);
          return place === undefined ? [] : [{ note: each, place }];
        });
        for (const {
          note: { sound },
          place,
        } of placed)
          expect(sound).toMatchObject({ soundingMidi: standard.tuning[place.string - 1]! + place.fret });
        const reported = new Set(
          issues.map(({ where }) => (where.kind === 'music' ? (where.barOrdinal - 1) * 4 + where.beat - 1 : -1)),
        );
        const onsets = new Set(piece.notes.map(({ onsetTicks }) => onsetTicks));
        for (const ticks of onsets) {
          if (reported.has(ticks / piece.ticksPerQuarter)) continue;
          const struck = piece.notes.filter(({ onsetTicks }) => onsetTicks === ticks);
          expect(struck.every(({ id }) => value.has(id))).toBe(true);
          const struckStrings = placed
            .filter(({ note: each }) => each.onsetTicks === ticks)
            .map(({ place }) => place.string);
          expect(new Set(struckStrings).size).toBe(struckStrings.length);
          const earlier = placed.filter(({ note: each }) => each.onsetTicks < ticks && endOf(each) > ticks);
          const isCut = ({ note: each, place }: Sounding): boolean =>
            placed.some(
              (other) =>
                other.place.string === place.string &&
                other.note.onsetTicks > each.onsetTicks &&
                other.note.onsetTicks < ticks,
            );
          const held = earlier.filter((each) => !isCut(each));
          expect(held.filter(({ place }) => struckStrings.includes(place.string))).toEqual([]);
          const frets = [...held, ...placed.filter(({ note: each }) => each.onsetTicks === ticks)]
            .map(({ place }) => place.fret)
            .filter((fret) => fret > 0);
          if (frets.length > 0) expect(Math.max(...frets) - Math.min(...frets)).toBeLessThanOrEqual(widestSpan);
        }
      }),
      { numRuns: 150, seed: 20261125 },
    );
  });

  it('gets the same answer again, and places of the source stay', () => {
    fc.assert(
      fc.property(score, (piece) => {
        expect([...proposeFingering(piece, standard).value]).toEqual([...proposeFingering(piece, standard).value]);
      }),
      { numRuns: 30, seed: 20261125 },
    );
    const given = line(common, note('E4', 2, { string: 3, fret: 9 }), note('F4', 2));
    expect(told(given)).toBe('- 2/6');
  });
});
