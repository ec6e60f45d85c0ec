import { scoreOfPiece } from '../../dist/measure/piece-score.js';
import { teach } from '../../dist/measure/teacher.js';
import { splitterTool, tableTool } from '../../dist/measure/tools.js';
import { measuredSets } from './measured-sets.js';
import { row } from './measure.js';

const mostShare = 0.4;
const sum = (lessons, key) => lessons.reduce((total, lesson) => total + lesson[key], 0);

function rowsOf(name, way, lessons) {
  const [byHand, withTool] = [sum(lessons, 'byHand'), sum(lessons, 'withTool')];
  const share = byHand === 0 ? 0 : withTool / byHand;
  const figure = `${withTool} of ${byHand}`;
  const more = lessons.filter((lesson) => lesson.withTool > lesson.byHand);
  return [
    row(`corrections, ${name}, ${way}`, '≤ 40 %', figure, share <= mostShare, `${(100 * share).toFixed(0)} %`),
    ...more.map((lesson) => `         more than by hand: ${lesson.id}, ${lesson.withTool} against ${lesson.byHand}`),
  ];
}

/** What a simulated teacher needs until a piece is right, against correcting the first proposal by hand; of our own arrangements those with written lengths. */
export function bench() {
  return measuredSets()
    .filter(({ name }) => !/ringing|tablature/.test(name))
    .flatMap(({ name, pieces }) => [
      ...rowsOf(
        name,
        'at the splitting table',
        pieces.map((piece) => teach(piece, tableTool(scoreOfPiece(piece)))),
      ),
      ...rowsOf(
        name,
        'by the bare splitter',
        pieces.map((piece) => teach(piece, splitterTool(piece))),
      ),
    ]);
}
