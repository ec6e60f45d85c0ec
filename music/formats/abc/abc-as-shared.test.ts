import { describe, expect, it } from 'vitest';
import type { Score, SoundingNote } from '../../score/score.ts';
import { readScoreFile } from '../read-score-file.ts';

interface Read {
  readonly score: Score;
  readonly told: readonly string[];
}

function read(text: string): Read {
  const result = readScoreFile(new TextEncoder().encode(text), {
    fileName: 'made.abc',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { score: result.value.score, told: result.value.issues.map(({ detail }) => detail) };
}

const tune = (body: string, header = 'M:4/4\nL:1/4\nK:C'): string => `X:1\nT:Made\n${header}\n${body}\n`;
const nameOf = ({ sound }: SoundingNote): string =>
  sound.kind === 'pitched' ? `${sound.sounding.step}${sound.sounding.octave}` : 'x';
/** Each bar's notes with their lengths in quarters, in order of time and from low to high. */
const bars = ({ bars: all, notes, ticksPerQuarter }: Score): string[] =>
  all.map(({ id }) =>
    notes
      .filter(({ bar }) => bar === id)
      .map((note) => `${nameOf(note)}:${note.lengthTicks / ticksPerQuarter}`)
      .sort()
      .join(' '),
  );
const words = ({ lyrics, notes }: Score): string =>
  notes
    .map(
      ({ id }) => lyrics.flatMap(({ note, verse, text }) => (note === id ? [`${verse}${text}`] : [])).join('+') || '-',
    )
    .join(' ');

// ABC 2.1, sections on K:, V: and clefs, from memory.
describe('clefs of ABC', () => {
  const clefs = (header: string): string =>
    read(tune('C4|', `M:4/4\nL:1/4\n${header}`))
      .score.clefs.map(({ sign, staffLine, octave }) => `${sign}${staffLine}${octave === 0 ? '' : octave}`)
      .join(' ');

  it.each([
    ['K:C', ''],
    ['K:F', ''],
    ['K:G', ''],
    ['K:F bass', 'F4'],
    ['K:C clef=bass', 'F4'],
    ['K:Am clef=C', 'C3'],
    ['K:D clef=C4', 'C4'],
    ['K:D alto1', 'C1'],
    ['K:D clef=F3', 'F3'],
    ['K:Dmix treble-8', 'G2-1'],
    ['K:C clef="bass+8"', 'F41'],
  ])('a key’s letter is none: %s', (header, expected) => expect(clefs(header)).toBe(expected));

  it('are told where they are not understood', () => {
    expect(read(tune('C4|', 'M:4/4\nV:1 clef=wobble score=AB\nK:C')).told).toEqual([
      '“clef=wobble” is not read; it was left out.',
      '“score=AB” is not read; it was left out.',
    ]);
  });

  it('print what middle= names on their middle line, and sound it there unless transpose= says where', () => {
    const both = read(
      tune('[V:1] d4|\n[V:2] d4|\n', 'M:4/4\nL:1/4\nV:1 clef=bass middle=d transpose=-24\nV:2 clef=bass middle=d\nK:C'),
    );
    expect(bars(both.score)).toEqual(['D3:4 D3:4']);
    expect(both.score.notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.written.octave : 0))).toEqual([3, 3]);
    expect(both.told).toEqual([
      'With “middle=” the letters stand 2 octaves lower on the staff; they were read as they are printed.',
    ]);
  });

  it('let a voice’s own octave go before the one of the key', () => {
    const { score } = read(tune('[V:1] C4|\n[V:2] C4|', 'M:4/4\nL:1/4\nV:1 octave=1\nV:2\nK:C octave=-1'));
    expect(bars(score)).toEqual(['C3:4 C5:4']);
  });
});

describe('bars of ABC', () => {
  it('are in free time where no meter is named', () => {
    const { score, told } = read(tune('CDEFG|AB|', 'K:C'));
    expect(score.unmeteredBars).toHaveLength(2);
    expect(bars(score)[0]).toBe('C4:0.5 D4:0.5 E4:0.5 F4:0.5 G4:0.5');
    expect(told).toEqual([]);
  });

  it('have jumps at their ends where these stand before the bar line', () => {
    const { score } = read(tune('!segno!C4 | D4 !fine!| E4 | F4 !D.S.alfine!|]'));
    expect(score.bars.map(({ jumps }) => jumps.join())).toEqual(['segno', 'fine', '', 'dalSegno']);
    expect(read(tune('C4 !fine!|D4 !D.C.!|]')).score.bars.map(({ jumps }) => jumps.join())).toEqual(['fine', 'daCapo']);
  });

  it('keep endings that have words for numbers', () => {
    const { score } = read(tune('|:C4|["first" D4:|["last time" E4|]'));
    expect(score.bars.map(({ endings }) => endings)).toEqual([[], [1], [2]]);
    expect(bars(read(tune('["Am"CE]4|')).score)).toEqual(['C4:4 E4:4']);
  });

  it('hear of an ending that the next one ends', () => {
    const { score } = read(tune('|:C4|1 D4 | [2 E4 | F4|]'));
    expect(score.bars.map(({ endings }) => endings)).toEqual([[], [1], [2], [2]]);
  });
});

// ABC 2.1, "Voice overlay": “each & operator sets the time point of the music back by one bar line … any overlay in the accompanying music code is ignored” by words, from memory.
describe('voices laid over others in ABC', () => {
  it('have ties of their own', () => {
    const { score, told } = read(tune('C4- & e2 g2- | C4 & g4 |'));
    expect(bars(score)).toEqual(['C4:8 E5:2 G5:6', '']);
    expect(told).toEqual([]);
  });

  it('go back by as many bars as signs say', () => {
    const { score } = read(tune('g4 | e3 e |\n&& d4 | (c3 B) |\nw: a | b c\nC4|]'));
    expect(bars(score)).toEqual(['D5:4 G5:4', 'B4:1 C5:3 E5:1 E5:3', 'C4:4']);
    expect(score.slurs).toHaveLength(1);
    const sung = new Map(score.lyrics.map(({ note, text }) => [note, text]));
    expect(score.notes.flatMap((note) => (sung.has(note.id) ? [`${nameOf(note)}${sung.get(note.id)}`] : []))).toEqual([
      'G5a',
      'E5b',
      'E5c',
    ]);
  });

  it('take no words', () => {
    expect(words(read(tune('CDEF & c4 | G4 |\nw: a b c d e')).score)).toBe('- 1a 1b 1c 1d 1e');
  });
});

describe('words of ABC', () => {
  it('go on in the same verse after +:', () => {
    const { score, told } = read('X:1\nT:Long\n+:title\nM:4/4\nL:1/4\nK:C\nCDEF|GABc|\nw: a b\n+: c d | e\nw: f\n');
    expect(score.title).toBe('Long title');
    expect(words(score)).toBe('1a+2f 1b 1c 1d 1e - - -');
    expect(told).toEqual([]);
  });

  it('pass a bar for each bar line, one that only rests too', () => {
    expect(words(read(tune('CD|EF|GA|z2|Bc|\nw: a b | | c d | | e f', 'M:2/4\nL:1/4\nK:C')).score)).toBe(
      '1a 1b - - 1c 1d 1e 1f',
    );
    expect(words(read(tune('CD|EF|\nw: | a b | c d |', 'M:2/4\nL:1/4\nK:C')).score)).toBe('1a 1b 1c 1d');
  });
});

// ABC 2.1, "Text strings": mnemonics, named HTML entities and fixed width Unicode, from memory.
it('texts of ABC have their accents', () => {
  const { score } = read(
    'X:1\nT:Fr\\"uhling \\& S\\\'ert\\u00e9 caf&eacute; 100\\% \\AAse\nC:\\\'Elie\nM:4/4\nL:1/4\nK:C\n"^d\\\'ej\\`a"C "_M\\"adchen"D E2|\nw: d\\\'e-j\\`a \\-x\n',
  );
  expect(score.title).toBe('Frühling & Sérté café 100% Åse');
  expect(score.composer).toBe('Élie');
  expect(score.words.map(({ text }) => text)).toEqual(['déjà', 'Mädchen']);
  expect(words(score)).toBe('1dé 1jà 1-x');
});

describe('an ABC file', () => {
  it('may hold text that is set as it is', () => {
    const { score, told } = read(tune('CDEF|\n%%begintext\nABC, a cabbage|\n%%endtext\nGABc|'));
    expect(bars(score)).toHaveLength(2);
    expect(told).toEqual([]);
  });

  it('keeps a name that no character has', () =>
    expect(read('X:1\nT:The &constructor; of ships\nK:C\nC|\n').score.title).toBe('The &constructor; of ships'));

  it('keeps its music where a block of text begins and never ends', () => {
    const { score, told } = read(tune('CDEF|\n%%begintext\nGABc|'));
    expect(bars(score)).toHaveLength(2);
    expect(told).toEqual(['The instruction “begintext” is about print or playback and was left out.']);
  });

  it('may be indented', () => expect(bars(read('  X:1\n  M:4/4\n  L:1/4\n  K:C\n  C4|\n').score)).toEqual(['C4:4']));

  it('may have music after an empty line, which is read and told; prose there is none', () => {
    const { score, told } = read(tune('C4|\n\nD4|\n\nFound by nobody | in particular.\n\nE4|]'));
    expect(bars(score)).toEqual(['C4:4', 'D4:4', 'E4:4']);
    expect(told).toEqual(['An empty line ends a tune, and music goes on after it; it was read as part of the tune.']);
  });

  it('is instructed by I: as by %%', () => {
    const { score, told } = read(
      tune('^C c2 D!E F!|', 'M:6/4\nL:1/4\nI:linebreak !\nI:propagate-accidentals octave\nK:C'),
    );
    expect(bars(score)).toEqual(['C4:1 C5:2 D4:1 E4:1 F4:1']);
    expect(score.notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.sounding.alter : 0))).toEqual([
      1, 0, 0, 0, 0,
    ]);
    expect(told).toEqual([]);
  });

  it('counts note lengths in the tempos of its old form', () => {
    const tempo = (field: string): number | undefined =>
      read(tune('C8|', `M:4/4\nL:1/8\nQ:${field}\nK:C`)).score.tempos[0]?.quartersPerMinute;
    expect([tempo('C=80'), tempo('C3=40')]).toEqual([40, 60]);
  });
});

describe('chords of ABC', () => {
  it('have a finger for each note', () => {
    const { score } = read(tune('[!1!C!3!E!4!G]4|!2!C4|'));
    expect(score.notes.map((note) => `${nameOf(note)}${note.frettingFinger ?? ''}`).sort()).toEqual([
      'C41',
      'C42',
      'E43',
      'G44',
    ]);
  });

  it('tell lengths of their notes that differ, and rests within them', () => {
    const { score, told } = read(tune('[C2E4]z2|[zD]4|'));
    expect(bars(score)).toEqual(['C4:2 E4:2', 'D4:4']);
    expect(told).toEqual([
      'The notes of a chord have lengths of their own; all got that of the first, as ABC 2.1 says.',
      'A rest within a chord or among grace notes was left out.',
    ]);
  });

  it('that are not closed end at the bar line', () => {
    const { score, told } = read(tune('[CEG | D4 |'));
    expect(bars(score)).toEqual(['C4:1 E4:1 G4:1', 'D4:4']);
    expect(told).toContain('A chord is not closed; it was ended here.');
  });

  it('may stand between plus signs, as in old files', () =>
    expect(bars(read(tune('+CEG+2 +ff+c +trill+c|')).score)).toEqual(['C4:2 C5:1 C5:1 E4:2 G4:2']));

  it('are looked for between plus signs in one go: a sign that nothing closes does not hold up the reading', () =>
    expect(
      bars(read(tune(`+${'C12'.repeat(60)}|`)).score)
        .join(' ')
        .match(/C4:12/g),
    ).toHaveLength(60));

  it('end slurs within them', () => expect(read(tune('(C2 [D)F]2|')).score.slurs).toHaveLength(1));
});

it('reads every dynamic that a score may have, as MusicXML does', () => {
  const { score, told } = read(tune('!ffffff!C !sffz!D !sfzp!E !pf!F |'));
  expect(
    score.dynamics.map((mark) => (mark.kind === 'level' ? mark.level : mark.kind === 'accent' ? mark.sign : '')),
  ).toEqual(['ffffff', 'sffz', 'sfzp', 'p', 'pf', 'f']);
  expect(told).toEqual([]);
});

it('tells what waits for a note that never comes', () => {
  expect(read(tune('CDEF "G7" {g} |]')).told).toEqual([
    'No note follows that this belongs to; left out: grace notes, “G7”.',
  ]);
  expect(read(tune('!<(!CDEF!<)! |]')).score.dynamics).toMatchObject([{ kind: 'hairpin', onsetTicks: 0 }]);
});
