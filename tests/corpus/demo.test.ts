import { describe, expect, it } from 'vitest';
import { lineId, proposeSplit, readScoreFile, type LineId, type Score } from '../../music/index.ts';
import { demoPieces, type DemoPiece } from '../../seed/demo-pieces.ts';
import { ticksPerQuarter } from '../../seed/form/piece.ts';
import { trueMarks } from '../../seed/true-marks.ts';
import { agreementOf } from '../../measure/links.ts';
import { secondReading } from '../support/second-reader.ts';
import { flattened } from '../../measure/registry-scores.ts';

interface Read {
  readonly demo: DemoPiece;
  readonly score: Score;
  readonly issueCount: number;
}

function read(demo: DemoPiece): Read {
  const bytes = new TextEncoder().encode(demo.musicXml);
  const result = readScoreFile(bytes, { fileName: demo.fileName, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { demo, score: result.value.score, issueCount: result.value.issues.length };
}

const reads = demoPieces().map((demo) => [demo.title, read(demo)] as const);
const weir = reads[0]![1];
const candles = reads[1]![1];

const quarters = (ticks: number, perQuarter: number): string => (ticks / perQuarter).toFixed(4);

/** One pluck or tap as a line of text, however it is told. */
function pluckText(onset: string, length: string, sound: string, string: number, fret: number): string {
  return `${onset} for ${length}: ${sound} on string ${string} at fret ${fret}`;
}

/** The plucks that the text form tells; a unison of two lines is one pluck, as long as the longer of them. */
function plucksOfForm({ demo }: Read): string[] {
  const longest = new Map<string, (typeof demo.piece.notes)[number]>();
  for (const note of demo.piece.notes) {
    const key = `${note.onsetTicks} ${note.string}`;
    if ((longest.get(key)?.lengthTicks ?? 0) < note.lengthTicks) longest.set(key, note);
  }
  return [...longest.values()]
    .map((note) => {
      const sound = note.sound.kind === 'tap' ? 'hit' : String(note.sound.midi);
      return pluckText(
        quarters(note.onsetTicks, ticksPerQuarter),
        quarters(note.lengthTicks, ticksPerQuarter),
        sound,
        note.string,
        note.fret,
      );
    })
    .sort();
}

const plucksOfScore = ({ score }: Read): string[] =>
  score.notes
    .map((note) => {
      const sound = note.sound.kind === 'hit' ? 'hit' : String(note.sound.soundingMidi);
      const { string, fret } = note.fingerboard!;
      return pluckText(
        quarters(note.onsetTicks, score.ticksPerQuarter),
        quarters(note.lengthTicks, score.ticksPerQuarter),
        sound,
        string,
        fret,
      );
    })
    .sort();

function proposedLines(score: Score, lineCount?: number): string[] {
  let made = 0;
  const newLineId = (): LineId => lineId(`line-${(made += 1)}`);
  const { marks } = proposeSplit(score, { lineCount, pins: new Map(), lines: [], newLineId });
  return score.notes.map(({ id }) => (marks.get(id)?.lines ?? []).join('+'));
}

describe.each(reads)('%s', (_title, reading) => {
  const { demo, score } = reading;
  const truth = trueMarks(demo.piece, score);

  it('is read as the music that its text form tells, without one issue', () => {
    expect(plucksOfScore(reading)).toEqual(plucksOfForm(reading));
    expect(reading.issueCount).toBe(0);
  });

  it('pairs notation and tablature: one part, and every pluck has a head in each', () => {
    expect(score.parts.map(({ staves, pairedWith }) => [staves, pairedWith])).toEqual([
      [['notation', 'tablature'], null],
    ]);
    expect(score.parts[0]!.tuning).toEqual(demo.piece.tuning);
    expect(score.notes.filter((note) => note.heads.length < 2)).toEqual([]);
  });

  it('keeps bars, repeats, endings, rehearsal marks, keys and tempo', () => {
    const told = demo.piece.bars.map((bar) => [
      bar.label,
      bar.lengthTicks / ticksPerQuarter,
      bar.startsRepeat,
      bar.endsRepeat,
      bar.ending,
      bar.rehearsalMark,
      bar.key.fifths,
    ]);
    const found = score.bars.map((bar) => [
      bar.label,
      bar.lengthTicks / score.ticksPerQuarter,
      bar.startsRepeat,
      bar.repeatTimes > 0,
      bar.endings[0] ?? null,
      bar.rehearsalMark,
      bar.key.fifths,
    ]);
    expect(found).toEqual(told);
    const tempos = demo.piece.bars.flatMap((bar) => bar.quartersPerMinute ?? []);
    expect(score.tempos.map(({ quartersPerMinute }) => quartersPerMinute)).toEqual(tempos);
  });

  it('keeps levels and hairpins', () => {
    const text = (dynamics: Score['dynamics'], perQuarter: number): string[] =>
      dynamics
        .map((mark) =>
          mark.kind === 'level' || mark.kind === 'accent'
            ? `${quarters(mark.onsetTicks, perQuarter)} ${mark.kind === 'level' ? mark.level : mark.sign}`
            : `${quarters(mark.onsetTicks, perQuarter)} ${mark.direction} until ${quarters(mark.endTicks, perQuarter)}`,
        )
        .sort();
    expect(text(score.dynamics, score.ticksPerQuarter)).toEqual(text(demo.piece.dynamics, ticksPerQuarter));
  });

  it('gives every note its lines by the rows of the form', () => {
    expect(truth.unknown).toEqual([]);
    expect(truth.missing).toEqual([]);
    expect(truth.marks.size).toBe(score.notes.length);
  });

  // verovio 6.3.0 (npm): an independent reader of MusicXML.
  it('sounds the same to verovio', async () => {
    const second = await secondReading(demo.musicXml);
    const heard = [...second.notes].filter(([id]) => !second.tiedOn.has(id)).map(([, note]) => note);
    const pairs = (notes: readonly { onset: string; midi: number }[]): string[] =>
      [...new Set(notes.map(({ onset, midi }) => `${onset} ${midi}`))].sort();
    const told = demo.piece.notes.map((note) => ({
      onset: quarters(note.onsetTicks, ticksPerQuarter),
      midi: note.sound.kind === 'tap' ? demo.piece.tuning[note.string - 1]! : note.sound.midi, // a tap's x head has a pitch for its place
    }));
    expect(pairs(heard.map((note) => ({ onset: quarters(note.onsetQuarters, 1), midi: note.writtenMidi })))).toEqual(
      pairs(told),
    );
  });

  it.each([
    ['as it stands', (given: Score): Score => given, 0.97],
    ['with all that tells its source voices apart taken out', flattened, 0.97],
  ] as const)('%s, it is proposed nearly as its rows tell: link F1', (_how, change, least) => {
    const found = proposedLines(change(score));
    const rows = score.notes.map(({ id }) => truth.marks.get(id)!.join('+'));
    expect(agreementOf(score.notes, rows, found).f1).toBeGreaterThanOrEqual(least);
  });
});

describe('The Weir at Low Water', () => {
  const { piece } = weir.demo;

  it('is at least 64 bars long, with a pickup', () => {
    expect(piece.bars.filter((bar) => !bar.isPickup).length).toBeGreaterThanOrEqual(64);
    expect(weir.score.bars[0]!.lengthTicks).toBe(weir.score.ticksPerQuarter);
  });

  it('lets all four lines move at once: each strikes at least twice in every bar from 44 to 52', () => {
    const passage = piece.bars.filter((bar) => Number(bar.label) >= 44 && Number(bar.label) <= 52);
    const strikes = passage.flatMap((bar) =>
      piece.lines.map(
        ({ letter }) => piece.notes.filter((note) => note.letter === letter && note.barOrdinal === bar.ordinal).length,
      ),
    );
    expect(strikes).toHaveLength(36);
    expect(Math.min(...strikes)).toBeGreaterThanOrEqual(2);
  });

  it('reads its taps as hits, on two and four where section C begins', () => {
    const hits = weir.score.notes.filter(({ sound }) => sound.kind === 'hit');
    expect(hits).toHaveLength(piece.notes.filter(({ sound }) => sound.kind === 'tap').length);
    expect(hits.every(({ sound }) => sound.kind === 'hit' && sound.isCertain)).toBe(true);
    const bar = weir.score.bars.find(({ rehearsalMark }) => rehearsalMark === 'C')!;
    const beats = hits
      .filter((hit) => hit.bar === bar.id)
      .map((hit) => (hit.onsetTicks - bar.onsetTicks) / weir.score.ticksPerQuarter + 1);
    expect(beats).toEqual([2, 4]);
  });
});

describe('Two Candles', () => {
  it('has double-stemmed unisons: one pluck, two heads in notation, two lines', () => {
    const truth = trueMarks(candles.demo.piece, candles.score);
    const shared = candles.score.notes.filter(({ id }) => truth.marks.get(id)!.length === 2);
    expect(shared.map(({ voices }) => voices.map(({ stem }) => stem))).toEqual([
      ['up', 'down'],
      ['up', 'down'],
    ]);
    expect(shared.every(({ heads }) => heads.length === 3)).toBe(true);
  });
});
