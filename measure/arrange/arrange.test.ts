import { describe, expect, it } from 'vitest';
import { arrange, tunings, type ArrangeOptions, type Arrangement } from './arrange.ts';
import { pieceOf } from './plain.ts';
import { sources, type Source } from './source.ts';

const all = sources();
const options: ArrangeOptions = { tuning: tunings.standard, lengths: 'written', hitEvery: 5, seed: 3 };

const pitched = ({ score }: Arrangement) =>
  score.notes.flatMap(({ onsetTicks, lengthTicks, sound, fingerboard, techniques }) =>
    sound.kind === 'pitched' && fingerboard !== null
      ? [{ onsetTicks, endTicks: onsetTicks + lengthTicks, midi: sound.soundingMidi, techniques, ...fingerboard }]
      : [],
  );

describe('sources', () => {
  it('hold music in two, three and four lines, and some with chords', () => {
    expect(new Set(all.filter(({ hasChords }) => !hasChords).map(({ lines }) => lines.length))).toEqual(
      new Set([2, 3, 4]),
    );
    expect(all.filter(({ hasChords }) => hasChords).length).toBeGreaterThanOrEqual(3);
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    for (const { lines } of all) for (const line of lines) expect(line.length).toBeGreaterThan(10);
  });
});

describe.each(
  all.flatMap((source) =>
    (['written', 'ringing', 'tablature'] as const).map((lengths) => [source.id, lengths, source] as const),
  ),
)('%s, %s', (_, lengths, source: Source) => {
  const tuning = all.indexOf(source) % 2 === 0 ? tunings.standard : tunings.dropped;
  const made = arrange(source, { ...options, tuning, lengths });
  const notes = pitched(made);

  it('gives every note a fret that sounds its pitch, and no string two notes at a time', () => {
    for (const { string, fret, midi } of notes) expect(tuning[string - 1]! + fret).toBe(midi);
    expect(notes.every(({ fret }) => fret >= 0 && fret <= 15)).toBe(true);
    for (const string of [1, 2, 3, 4, 5, 6]) {
      const onString = notes.filter((note) => note.string === string);
      onString.slice(1).forEach((note, index) => {
        expect(note.onsetTicks).toBeGreaterThanOrEqual(onString[index]!.endTicks);
      });
    }
  });

  it('lets the hand reach what sounds together: five frets at most', () => {
    for (const { onsetTicks } of notes) {
      const frets = notes
        .filter((note) => note.onsetTicks <= onsetTicks && note.endTicks > onsetTicks && note.fret > 0)
        .map(({ fret }) => fret);
      // What was struck earlier may lie up to four frets on each side of what is struck now.
      const now = notes.filter((note) => note.onsetTicks === onsetTicks && note.fret > 0).map(({ fret }) => fret);
      if (now.length === 0) continue;
      expect(Math.max(...now) - Math.min(...now)).toBeLessThanOrEqual(4);
      expect(Math.max(...frets) - Math.min(...now)).toBeLessThanOrEqual(4);
      expect(Math.max(...now) - Math.min(...frets)).toBeLessThanOrEqual(4);
    }
  });

  it('plays most of its source, each note on its line', () => {
    const sourceNotes = source.lines.flatMap((line, index) =>
      line.map(({ onsetTicks, midi }) => `${index + 1} ${onsetTicks} ${midi % 12}`),
    );
    const shift = notes.length === 0 ? 0 : shiftBetween(source, made);
    const played = made.score.notes.flatMap((note, index) =>
      note.sound.kind === 'pitched'
        ? made.truth[index]!.map(
            (line) =>
              `${line.slice(5)} ${note.onsetTicks} ${(note.sound.kind === 'pitched' ? note.sound.soundingMidi - shift + 120 : 0) % 12}`,
          )
        : [],
    );
    const known = new Set(sourceNotes);
    expect(played.filter((note) => !known.has(note))).toEqual([]);
    expect(played.length).toBeGreaterThan(0.85 * sourceNotes.length);
  });

  it('puts its hits on a line of their own, in the bars of the score', () => {
    made.score.notes.forEach(({ sound }, index) => {
      expect(made.truth[index]!.includes('hits')).toBe(sound.kind === 'hit');
    });
    expect(made.truth.filter((lines) => lines[0] === 'hits').length).toBeGreaterThan(0);
  });
});

/** The semitones that the arrangement lies above its source, octaves apart. */
function shiftBetween(source: Source, { score, truth }: Arrangement): number {
  const first = source.lines[0]![0]!;
  const index = score.notes.findIndex(
    ({ onsetTicks }, place) => onsetTicks === first.onsetTicks && truth[place]![0] === 'line 1',
  );
  const { sound } = score.notes[index]!;
  return sound.kind === 'pitched' ? sound.soundingMidi - first.midi : 0;
}

describe('arrange', () => {
  const source = all.find(({ id }) => id.startsWith('Binchois'))!;

  it('makes the same of the same, and something else of another seed', () => {
    expect(arrange(source, options)).toEqual(arrange(source, options));
    expect(arrange(source, { ...options, seed: 4 })).not.toEqual(arrange(source, options));
  });

  it('lets notes ring past their written end, four quarters at most, and says so', () => {
    const written = pitched(arrange(source, options));
    const ringing = pitched(arrange(source, { ...options, lengths: 'ringing' }));
    expect(ringing.every(({ techniques }) => techniques.includes('letRing'))).toBe(true);
    expect(ringing.map(({ onsetTicks, midi }) => `${onsetTicks} ${midi}`)).toEqual(
      written.map(({ onsetTicks, midi }) => `${onsetTicks} ${midi}`),
    );
    const longest = 4 * source.ticksPerQuarter;
    ringing.forEach(({ onsetTicks, endTicks }, index) => {
      expect(endTicks).toBeGreaterThanOrEqual(written[index]!.endTicks);
      expect(endTicks).toBeLessThanOrEqual(Math.max(written[index]!.endTicks, onsetTicks + longest));
    });
    const longer = ringing.filter(({ endTicks }, index) => endTicks > written[index]!.endTicks);
    expect(longer.length).toBeGreaterThan(ringing.length / 3);
  });

  it('ends every note with the next one in the rhythm of tablature', () => {
    const notes = pitched(arrange(source, { ...options, lengths: 'tablature' }));
    const onsets = [...new Set(notes.map(({ onsetTicks }) => onsetTicks))];
    for (const { onsetTicks, endTicks } of notes)
      expect(endTicks).toBeLessThanOrEqual(onsets[onsets.indexOf(onsetTicks) + 1] ?? Infinity);
  });

  it('adds no hits where none are wanted', () => {
    const { truth } = arrange(source, { ...options, hitEvery: 0 });
    expect(truth.flat()).not.toContain('hits');
  });
});

describe('pieceOf', () => {
  it('has a note twice where two lines share it, and none for a hit', () => {
    const made = arrange(
      all.find(({ id }) => id.startsWith('Binchois'))!,
      options,
    );
    const { notes } = pieceOf(made, 'nothing');
    expect(notes).toHaveLength(made.truth.filter(([line]) => line !== 'hits').flat().length);
    expect(made.truth.some((lines) => lines.length === 2)).toBe(true);
    expect(notes.every((note) => note.string === undefined && note.sourceVoice === undefined)).toBe(true);
    expect(pieceOf(made, 'fingerboard').notes.every(({ string }) => string !== undefined)).toBe(true);
  });
});
