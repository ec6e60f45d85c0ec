import fc from 'fast-check';
import { noteId, partId, type NoteId } from '../../music/basis/ids.ts';
import type { ChordSymbol, Lyric, Slur } from '../../music/score/marks.ts';
import type { Bar, DynamicMark, GraceNote, Score, Ornament, SoundingNote, Technique } from '../../music/score/score.ts';
import { anyOneVoice } from './any-score.ts';

const techniques: readonly Technique[] = [
  ...(['letRing', 'hammerOn', 'pullOff', 'slide', 'naturalHarmonic', 'artificialHarmonic', 'staccato'] as const),
  ...(['accent', 'strongAccent', 'tenuto', 'fermata', 'arpeggio', 'strumDown', 'strumUp'] as const),
];

/** Harmonics sound elsewhere than their fret, so that not any pitch may have one at its place on the strings. */
const touched: readonly Technique[] = ['naturalHarmonic', 'artificialHarmonic'];

const symbols: readonly Omit<ChordSymbol, 'onsetTicks'>[] = [
  { text: 'Am7', root: { step: 'A', alter: 0 }, kind: 'minor-seventh', bass: null },
  { text: 'C/E', root: { step: 'C', alter: 0 }, kind: 'major', bass: { step: 'E', alter: 0 } },
  { text: 'F♯m', root: { step: 'F', alter: 1 }, kind: 'minor', bass: null },
  { text: 'N.C.', root: null, kind: 'none', bass: null },
];

/** Every other note has a second verse, so that verses begin and stop apart. */
const versesAt = (index: number): readonly string[] => (index % 2 === 0 ? ['1'] : ['1', '2']);

const lyric = (note: NoteId, verse: string): fc.Arbitrary<Lyric> =>
  fc
    .tuple(fc.constantFrom('la', 'día', 'it’s'), fc.constantFrom('single', 'begin', 'middle', 'end'), fc.boolean())
    .map(([text, syllabic, isExtended]) => ({ note, verse, text, syllabic, isExtended }));

/** Standard tuning, string 1 first. **Source** common practice, no source. */
const openStrings = [64, 59, 55, 50, 45, 40];

function placeOf(note: SoundingNote): SoundingNote['fingerboard'] {
  if (note.sound.kind === 'hit') return null;
  const { soundingMidi } = note.sound;
  const index = openStrings.findIndex((midi) => midi <= soundingMidi);
  return index < 0 ? null : { string: index + 1, fret: soundingMidi - openStrings[index]! };
}

const ornaments: readonly Ornament[] = [
  { kind: 'trill', alterAbove: 1 },
  { kind: 'mordent', alterBelow: 0 },
  { kind: 'invertedMordent' },
  { kind: 'turn', alterAbove: -1, alterBelow: 1 },
  { kind: 'invertedTurn' },
  { kind: 'delayedTurn' },
  { kind: 'delayedInvertedTurn' },
  { kind: 'tremolo', strokes: 3 },
];

/** A note with what a player reads beside it. */
const playedNote = (note: SoundingNote, onStrings: boolean): fc.Arbitrary<SoundingNote> =>
  fc
    .record({
      techniques: fc.uniqueArray(fc.constantFrom(...techniques), { maxLength: 2 }),
      pluckingFinger: fc.constantFrom(null, 'p', 'i', 'm', 'a', 'c'),
      frettingFinger: fc.constantFrom(null, 0, 1, 4),
      ornaments: fc.constantFrom<readonly Ornament[] | null>(null, ...ornaments.map((each) => [each])),
    })
    .map(({ ornaments: own, ...extra }) => ({
      ...note,
      ...(note.sound.kind === 'hit' ? {} : extra),
      ...(note.sound.kind === 'hit' || own === null ? {} : { ornaments: own }),
      techniques:
        note.sound.kind === 'hit' ? [] : extra.techniques.filter((name) => !onStrings || !touched.includes(name)),
      fingerboard: onStrings ? placeOf(note) : null,
    }));

function graceBefore(note: SoundingNote, index: number, onStrings: boolean): GraceNote {
  const fingerboard = onStrings ? placeOf(note) : null;
  const id = noteId(`g${index + 1}`);
  return { id, main: note.id, sound: note.sound, heads: [], fingerboard, hasSlash: index % 2 === 0 };
}

/** Slurs one after the other, so that a reader need not guess which ends where. */
const slursOf = (notes: readonly SoundingNote[]): fc.Arbitrary<readonly Slur[]> =>
  fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 4 }).map((steps) => {
    const slurs: Slur[] = [];
    let at = 0;
    for (const step of steps) {
      const [from, to] = [notes[at], notes[at + step]];
      if (from !== undefined && to !== undefined && to.onsetTicks > from.onsetTicks)
        slurs.push({ from: from.id, to: to.id });
      at += step + 1;
    }
    return slurs;
  });

/** Three at most, in their order. */
const someOf = <Item>(items: readonly Item[]): fc.Arbitrary<readonly Item[]> =>
  fc.subarray([...items], { maxLength: Math.min(3, items.length) });

const dynamicsAt = (onsets: readonly number[]): fc.Arbitrary<readonly DynamicMark[]> =>
  fc.tuple(someOf(onsets), fc.boolean()).map(([places, withHairpin]): readonly DynamicMark[] => {
    const levels = (['p', 'mf', 'ff'] as const).slice(0, places.length);
    const marks: DynamicMark[] = places.map((onsetTicks, index) => ({
      kind: 'level',
      onsetTicks,
      level: levels[index]!,
    }));
    const [first, last] = [places[0], places.at(-1)];
    if (withHairpin && first !== undefined && last !== undefined && last > first)
      marks.push({ kind: 'hairpin', onsetTicks: first, endTicks: last, direction: 'louder' });
    return marks.sort((a, b) => a.onsetTicks - b.onsetTicks);
  });

/** Repeats with endings, or a jump back, in the ways that make sense together. */
const signedBars = (bars: readonly Bar[]): fc.Arbitrary<readonly Bar[]> =>
  fc.constantFrom('plain', 'repeat', 'thrice', 'endings', 'daCapo', 'dalSegno').map((way) => {
    const last = bars.length - 1;
    const with_ = (index: number, more: Partial<Bar>): readonly Bar[] =>
      bars.map((bar, at) => (at === index ? { ...bar, ...more } : bar));
    if (way === 'repeat') return with_(last, { repeatTimes: 2 });
    if (way === 'thrice') return with_(last, { repeatTimes: 3 });
    if (way === 'daCapo') return with_(last, { jumps: ['daCapo'], rehearsalMark: last === 0 ? null : 'B' });
    if (way === 'endings' && last >= 2)
      return bars.map((bar, at) => ({
        ...bar,
        startsRepeat: at === last - 2,
        repeatTimes: at === last - 1 ? 2 : 0,
        endings: at === last - 1 ? [1] : at === last ? [2] : [],
      }));
    if (way === 'dalSegno' && last >= 1)
      return bars.map((bar, at) => ({ ...bar, jumps: at === 0 ? ['segno'] : at === last ? ['dalSegno'] : [] }));
    return bars;
  });

const firstOfMoments = (notes: readonly SoundingNote[]): readonly SoundingNote[] =>
  notes.filter(({ onsetTicks }, index) => notes[index - 1]?.onsetTicks !== onsetTicks);

/** A line with whatever may be written at its notes and over its bars; with places on the strings where wanted. */
export const anyMarkedScore = (onStrings: boolean): fc.Arbitrary<Score> =>
  anyOneVoice
    .filter(({ notes }) => notes.length > 0)
    .chain((score) =>
      fc
        .tuple(
          fc.tuple(...score.notes.map((note) => playedNote(note, onStrings))),
          someOf(firstOfMoments(score.notes).filter(({ sound }) => sound.kind === 'pitched')),
          slursOf(firstOfMoments(score.notes)),
          dynamicsAt([...new Set(score.notes.map(({ onsetTicks }) => onsetTicks))]),
          signedBars(score.bars),
        )
        .chain(([notes, chosen, slurs, dynamics, bars]) =>
          fc
            .tuple(
              fc.tuple(...chosen.flatMap(({ id }, index) => versesAt(index).map((verse) => lyric(id, verse)))),
              fc.constantFrom(...symbols),
              fc.boolean(),
            )
            .map(([lyrics, symbol, withWords]): Score => ({
              ...score,
              notes: [...notes],
              lyrics: [...lyrics],
              slurs: [...slurs],
              dynamics: [...dynamics],
              bars: [...bars],
              graces: chosen.map((note, index) => graceBefore(note, index, onStrings)),
              chordSymbols: chosen.slice(0, 1).map(({ onsetTicks }) => ({ ...symbol, onsetTicks })),
              words: withWords
                ? chosen.slice(0, 1).map(({ onsetTicks }) => ({
                    ...{ onsetTicks, part: partId('P1'), staff: 1, kind: 'other' as const },
                    text: 'dolce',
                  }))
                : [],
              swings: withWords ? [{ onsetTicks: 0, long: 2, short: 1, unit: 'eighth', isAssumed: false }] : [],
            })),
        ),
    );
