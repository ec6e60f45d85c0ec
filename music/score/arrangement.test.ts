import { describe, expect, it } from 'vitest';
import { tinyScore, type TinyOptions, type TinyPart } from '../../tests/support/tiny-musicxml.ts';
import { partId } from '../basis/ids.ts';
import { readMusicXml } from '../formats/musicxml/read-score.ts';
import { arrangementOf, defaultArrangement, saysGuitar } from './arrangement.ts';
import { factsOf } from './facts.ts';
import type { Score } from './score.ts';

function read(...parts: readonly TinyPart[]): Score {
  const result = readMusicXml(new TextEncoder().encode(tinyScore(...parts)), {
    fileName: 'tiny',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!result.ok) throw new Error(JSON.stringify(result.refusal));
  return result.value.score;
}

const tab: TinyOptions = { name: 'Guitar TAB', attributes: '<clef><sign>TAB</sign><line>5</line></clef>' };

describe('defaultArrangement', () => {
  it.each([
    [
      'the guitar beside a voice',
      [
        ['C4:w', { name: 'Voice' }],
        ['C4:w', { name: 'Guitar' }],
      ],
      ['P2'],
    ],
    [
      'all that sounds where nothing looks like a guitar',
      [
        ['C4:w', { name: 'Flute' }],
        ['C4:w', { name: 'Cello' }],
        ['r:w', { name: 'Tacet' }],
      ],
      ['P1', 'P2'],
    ],
    [
      'no bass guitar beside a guitar',
      [
        ['C4:w', { name: 'Guitar' }],
        ['C2:w', { name: 'Bass guitar' }],
      ],
      ['P1'],
    ],
    [
      'the notation, not the tablature that copies it',
      [
        ['E5:h G5:h', { name: 'Guitar' }],
        ['E4:h@1/0 G4:h@1/3', tab],
      ],
      ['P1'],
    ],
    ['tablature that stands alone', [['E4:h@1/0 G4:h@1/3', tab]], ['P1']],
  ] as const)('is %s', (_, parts, wanted) => {
    expect(defaultArrangement(read(...parts))).toEqual(wanted);
  });
});

describe('arrangementOf', () => {
  const score = read(['E4:eg C4:h r:h', { name: 'Voice' }], ['G3:eg E3:w', { name: 'Guitar' }]);

  it('keeps notes, grace notes and rests of the chosen parts, and all bars', () => {
    const chosen = arrangementOf(score, [partId('P2')]);
    expect([chosen.notes.length, chosen.graces.length, chosen.rests.length, chosen.bars.length]).toEqual([1, 1, 0, 1]);
    expect(factsOf(chosen).parts.map(({ soundingNotes }) => soundingNotes)).toEqual([0, 1]);
  });

  it('takes the notation where the tablature that copies it is chosen', () => {
    const pair = read(['E5:h G5:h', { name: 'Guitar' }], ['E4:h@1/0 G4:h@1/3', tab]);
    expect(arrangementOf(pair, [partId('P2')]).notes).toEqual(pair.notes);
  });
});

describe('saysGuitar', () => {
  // The names of the instrument in these languages are common knowledge: no source.
  it.each([
    'Gitaar',
    'Kitara',
    'Kytara',
    'Гитара',
    'ギター',
    '吉他',
    'Violão',
    'Ac.Gt.',
    'E-Git.',
    'Gtr. 1',
    'Chitarra',
  ])('knows “%s”', (name) => {
    expect(saysGuitar(name)).toBe(true);
  });

  it.each(['Viola', 'Bass Guitar', 'Digital piano', 'Guitarra baixo', 'Sagittarius choir', 'Voice'])(
    'is not taken in by “%s”',
    (name) => {
      expect(saysGuitar(name)).toBe(false);
    },
  );
});
