import { describe, expect, it } from 'vitest';
import { tinyScore, type TinyOptions } from '../../../tests/support/tiny-musicxml.ts';
import { nameOf } from '../../basis/pitch.ts';
import { factsOf } from '../../score/facts.ts';
import type { Score, SoundingNote } from '../../score/score.ts';
import { limits } from '../limits.ts';
import { readNormalised, readMusicXml, type ReadScore } from './read-score.ts';

function read(xml: string, firstNoteNumber = 1, firstBarNumber = 1): ReadScore {
  const result = readMusicXml(new TextEncoder().encode(xml), {
    fileName: 'tiny.musicxml',
    firstNoteNumber,
    firstBarNumber,
  });
  if (!result.ok) throw new Error(result.refusal.map(({ code, detail }) => `${code}: ${detail}`).join('; '));
  return result.value;
}

function soundOf({ sound }: Pick<SoundingNote, 'sound'>): string {
  if (sound.kind === 'hit') return `${sound.hit}${sound.isCertain ? '' : '?'}`;
  return nameOf(sound.sounding) + String(sound.sounding.octave);
}

/** A score as one line: `F♯4@1.5:2` is an F sharp that begins one and a half quarters in and lasts two. */
const line = (score: Score): string =>
  score.notes
    .map(
      (note) =>
        `${soundOf(note)}@${note.onsetTicks / score.ticksPerQuarter}:${note.lengthTicks / score.ticksPerQuarter}`,
    )
    .join(' ');

const codes = ({ issues }: Pick<ReadScore, 'issues'>): string[] => issues.map(({ code }) => code);

const guitar: TinyOptions = {
  name: 'Guitar',
  attributes:
    '<key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves>' +
    '<clef number="1"><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef><clef number="2"><sign>TAB</sign><line>5</line></clef>',
};
const oneStaff = (more: string): string =>
  `<key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef>${more}`;

describe('notes and time', () => {
  it.each([
    ['notes one after the other', 'C4:q D4:q E4:h', 'C4@0:1 D4@1:1 E4@2:2'],
    ['chords struck together, highest first', 'C4+E4+G4:w', 'G4@0:4 E4@0:4 C4@0:4'],
    ['two voices by backup', 'G4:h A4:h ; v2s1 C4:w', 'G4@0:2 C4@0:4 A4@2:2'],
    ['rests as silence', 'r:q C4:q r:h', 'C4@1:1'],
    ['a tie chain once, over a barline too', 'C4:w< | C4:h> D4:h', 'C4@0:6 D4@6:2'],
    ['a chord of which one note is tied on', 'C4:h< E4:h | D4:w', 'C4@0:2 E4@2:2 D4@4:4'],
    ['neither grace nor cue notes', 'D4:eg C4:h E4:hc', 'C4@0:2'],
  ])('reads %s', (_, music, wanted) => {
    expect(line(read(tinyScore([music])).score)).toBe(wanted);
  });

  it('gives grace notes to the note that follows, else to the one before', () => {
    const { score } = read(tinyScore(['D4:eg C4:w | E4:w F4:eg']));
    expect(score.graces.map(({ main, sound }) => [soundOf({ sound }), main])).toEqual([
      ['D4', score.notes[0]!.id],
      ['F4', score.notes[1]!.id],
    ]);
    expect(factsOf(score)).toMatchObject({ heads: 4, soundingNotes: 2, plucks: 2 });
  });

  it('takes bars as long as they are, and says which differ from their meter', () => {
    const result = read(tinyScore(['C4:q | C4:w | C4:h | C4:w D4:q | C4:w']));
    expect(result.score.bars.map(({ lengthTicks }) => lengthTicks / 24)).toEqual([1, 4, 2, 5, 4]);
    expect(result.issues.map(({ code, where }) => [code, where.kind === 'music' ? where.barOrdinal : 0])).toEqual([
      ['bar-underfull', 3],
      ['bar-overfull', 4],
    ]);
  });

  it.each([
    ['<time><beats>3+2</beats><beat-type>8</beat-type></time>', '3+2/8'],
    ['<time><beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type></time>', '3+4/8'],
    ['<time><beats>12</beats><beat-type>8</beat-type></time>', '12/8'],
  ])('reads the meter of %s', (time, wanted) => {
    const attributes = `${time}<clef><sign>G</sign><line>2</line></clef>`;
    expect(factsOf(read(tinyScore(['C4:h', { attributes }])).score).meters).toEqual([[1, wanted]]);
  });
});

describe('ties that lead nowhere', () => {
  it('are told and kept', () => {
    const result = read(tinyScore(['C4:h< D4:h | E4:w>']));
    expect(line(result.score)).toBe('C4@0:2 D4@2:2 E4@4:4');
    expect(codes(result)).toEqual(['tie-unresolved', 'tie-unresolved']);
  });
});

describe('double-stemmed unisons', () => {
  it('are one pluck of two voices and the longer length on a guitar', () => {
    const { score } = read(tinyScore(['v1s1 A3:q B3:q C4:h ; v2s1 A3:w', { name: 'Guitar' }]));
    const [unison] = score.notes;
    expect(unison!.heads).toHaveLength(2);
    expect(unison!.voices.map(({ voice }) => voice)).toEqual(['1', '2']);
    expect(unison!.lengthTicks / score.ticksPerQuarter).toBe(4);
    expect(unison!.voiceLengthTicks!.map((ticks) => ticks / score.ticksPerQuarter)).toEqual([1, 4]);
    expect(factsOf(score)).toMatchObject({ heads: 4, soundingNotes: 4, plucks: 3 });
  });

  it('are two notes that two singers hold on other instruments, struck once', () => {
    const { score } = read(tinyScore(['v1s1 A3:q B3:q C4:h ; v2s1 A3:w', { name: 'Voice' }]));
    expect(score.notes).toHaveLength(4);
    expect(factsOf(score)).toMatchObject({ heads: 4, soundingNotes: 4, plucks: 3 });
  });

  it('stay two notes where two hands strike a key', () => {
    const { score } = read(tinyScore(['v1s1 A3:w ; v2s2 A3:w', { name: 'Piano' }]));
    expect(score.notes).toHaveLength(2);
  });
});

describe('tablature', () => {
  const notation = 'v1s1 E4:q F4:q G4:h';
  const tablature = 'v5s2 E4:q@1/0 F4:q@1/1 G4:h@1/3';

  it('on a second staff is a copy: heads, string and fret of the notes that it shows', () => {
    const { score, issues } = read(tinyScore([`${notation} ; ${tablature}`, guitar]));
    expect(line(score)).toBe('E4@0:1 F4@1:1 G4@2:2');
    expect(score.notes.map(({ fingerboard, heads }) => [fingerboard, heads.length])).toEqual([
      [{ string: 1, fret: 0 }, 2],
      [{ string: 1, fret: 1 }, 2],
      [{ string: 1, fret: 3 }, 2],
    ]);
    expect(issues.map(({ code }) => code)).toEqual(['tuning-assumed']);
  });

  it('that shows other pitches gives way to the notation, and says so', () => {
    const result = read(tinyScore([`${notation} ; v5s2 E4:q@1/0 F4:q@1/1 A4:h@1/5`, guitar]));
    expect(line(result.score)).toBe('E4@0:1 F4@1:1 G4@2:2');
    expect(codes(result)).toContain('tablature-disagrees');
  });

  it('that shows a note more keeps it as a note of its own, and says so', () => {
    const result = read(tinyScore([`${notation} ; v5s2 E4:q@1/0 F4+C4:q@1/1 G4:h@1/3`, guitar]));
    expect(result.score.notes).toHaveLength(4);
    expect(codes(result)).toContain('tablature-unpaired');
  });

  it('in a part of its own is paired by what it plays', () => {
    const tab: TinyOptions = {
      name: 'TAB',
      attributes: '<time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>TAB</sign><line>5</line></clef>',
    };
    const { score } = read(tinyScore(['E5:q F5:q G5:h', { name: 'Guitar' }], ['E4:q@1/0 F4:q@1/1 G4:h@1/3', tab]));
    expect(line(score)).toBe('E4@0:1 F4@1:1 G4@2:2');
    expect(score.parts.map(({ pairedWith, soundingShift }) => [pairedWith, soundingShift])).toEqual([
      [null, -12],
      ['P1', 0],
    ]);
    expect(factsOf(score).parts.map(({ soundingNotes }) => soundingNotes)).toEqual([3, 0]);
  });
});

describe('octave and capo', () => {
  it.each([
    [
      'transposition',
      oneStaff('<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>'),
      'C3@0:4',
      [],
    ],
    [
      'a clef with an 8 below: pitches are written as they sound',
      '<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>',
      'C4@0:4',
      [],
    ],
    ['assumption, which is told', oneStaff(''), 'C3@0:4', ['octave-assumed']],
  ])('are read from %s', (_, attributes, wanted, told) => {
    const result = read(tinyScore(['C4:w', { name: 'Guitar', attributes }]));
    expect(line(result.score)).toBe(wanted);
    expect(codes(result).filter((code) => code !== 'tuning-assumed')).toEqual(told);
  });

  it('prefer strings and frets to an assumption', () => {
    const result = read(tinyScore(['E5:h@1/0 G5:h@1/3', { name: 'Guitar' }]));
    expect(line(result.score)).toBe('E4@0:2 G4@2:2');
    expect(codes(result)).toEqual(['tuning-assumed']);
  });

  it.each([['Capo 3'], ['capo III'], ['Capo: 3rd fret'], ['CAPO 3. Bund']])('find the capo in “%s”', (words) => {
    const direction = `<direction><direction-type><words>${words}</words></direction-type></direction>`;
    const result = read(tinyScore(['C4:w', { name: 'Guitar' }]).replace('<note>', `${direction}<note>`));
    expect(result.score.parts[0]!.capoFret).toBe(3);
    expect(line(result.score)).toBe('E♭3@0:4');
    expect(codes(result)).toContain('capo-assumed');
  });

  it('say where strings and frets contradict the clef', () => {
    const result = read(tinyScore(['v1s1 E5:w ; v5s2 E5:w@1/0', guitar]));
    expect(codes(result)).toContain('string-fret-disagree');
  });
});

describe('hits', () => {
  it('are x heads and unpitched notes; an x within a strum is uncertain', () => {
    const { score } = read(tinyScore(['x:q C4+E4+G4:q B4:q* r:q', { name: 'Guitar', attributes: oneStaff('') }]));
    expect(score.notes.filter(({ sound }) => sound.kind === 'hit')).toHaveLength(2);
  });

  it.each([
    ['slap', 'stringSlap'],
    ['thumb', 'lowBody'],
    ['knuckle', 'highBody'],
    ['mute', 'deadNote'],
  ])('are told by words: %s', (words, kind) => {
    const direction = `<direction><direction-type><words>${words}</words></direction-type></direction>`;
    expect(line(read(tinyScore([`${direction} B4:w*`, { name: 'Guitar' }])).score)).toBe(`${kind}@0:4`);
  });
});

describe('more bars than can be', () => {
  it('are left out, and how many they are is told', () => {
    const bars = '<measure number="1"/>'.repeat(limits.bars + 5);
    const { score, issues } = read(tinyScore(['C4:w']).replace('</part>', `${bars}</part>`));
    expect(score.bars).toHaveLength(limits.bars);
    expect(issues.map(({ detail }) => detail)).toContain(
      'Of 20006 bars the first 20000 were read; the others were left out.',
    );
  });
});

describe('repeats, endings and jumps', () => {
  it('stand on their bars', () => {
    const xml = tinyScore(['C4:w | D4:w | E4:w | F4:w']);
    const marked = xml
      .replace(
        '<measure number="1">',
        '<measure number="1"><barline location="left"><repeat direction="forward"/></barline>',
      )
      .replace(
        '<measure number="2">',
        '<measure number="2"><barline location="left"><ending number="1, 2" type="start"/></barline><barline location="right"><ending number="1, 2" type="stop"/><repeat direction="backward" times="3"/></barline>',
      )
      .replace(
        '<measure number="3">',
        '<measure number="3"><barline location="left"><ending number="3" type="start"/></barline>',
      )
      .replace(
        '<measure number="4">',
        '<measure number="4"><direction><direction-type><words>D.S. al Coda</words></direction-type></direction><barline location="right"><ending number="3" type="discontinue"/></barline>',
      );
    const { bars } = read(marked).score;
    expect(
      bars.map(({ startsRepeat, repeatTimes, endings, jumps }) => [startsRepeat, repeatTimes, endings, jumps]),
    ).toEqual([
      [true, 0, [], []],
      [false, 3, [1, 2], []],
      [false, 0, [3], []],
      [false, 0, [3], ['dalSegno']],
    ]);
  });
});

describe('identity', () => {
  it('numbers heads in reading order from the given numbers on, and bars, with ids for the bars of other parts', () => {
    const result = read(tinyScore(['E4:h G4:h | C4+E4:w'], ['C3:w | D3:w']), 10, 5);
    expect(result.score.notes.map(({ id }) => id)).toEqual(['n10', 'n11', 'n12', 'n13', 'n14', 'n15']);
    expect(result.score.notes.map(soundOf)).toEqual(['E4', 'C3', 'G4', 'E4', 'C4', 'D3']);
    expect(result.score.bars.map(({ id }) => id)).toEqual(['b5', 'b6']);
    expect([result.nextNoteNumber, result.nextBarNumber]).toEqual([16, 7]);
    expect([...result.normalisedXml.matchAll(/<measure number="\d" id="([^"]+)"/g)].map((match) => match[1])).toEqual([
      'b5',
      'b6',
      'b5-p2',
      'b6-p2',
    ]);
  });

  it('keeps the ids of the file beside its own and never uses an id twice', () => {
    const xml = tinyScore(['C4:h D4:h']).replace('<note>', '<note id="theirs">').replace('<clef>', '<clef id="n1">');
    const result = read(xml);
    expect(result.score.notes.map(({ id }) => id)).toEqual(['n2', 'n3']);
    expect([...result.sourceIds]).toEqual([['n2', 'theirs']]);
  });

  it('reads a normalised document as the same score', () => {
    const result = read(tinyScore(['v1s1 E4:q D4:eg F4:q G4:h ; v5s2 E4:q@1/0 F4:q@1/1 G4:h@1/3', guitar]), 7, 3);
    expect(readNormalised(result.normalisedXml)).toEqual({ value: result.score, issues: result.issues });
  });

  it('gives free numbers to heads of a document that lost their ids, and says so', () => {
    const { normalisedXml } = read(tinyScore(['C4:h D4:h']));
    const { value, issues } = readNormalised(normalisedXml.replace(' id="n1"', ''));
    expect(value.notes.map(({ id }) => id)).toEqual(['n1', 'n2']);
    expect(issues.map(({ code }) => code)).toEqual(['value-repaired']);
  });
});
