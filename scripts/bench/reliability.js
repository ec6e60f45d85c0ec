import { rightNotes } from '../../dist/measure/accuracy.js';
import { reliabilityOf } from '../../dist/measure/reliability.js';
import { row } from './measure.js';
import { answerTo, measuredSets } from './measured-sets.js';

const mostError = 0.03;
const leastAuroc = 0.85;

function binLine({ count, meanConfidence, rightShare }, index) {
  const figures =
    count === 0 ? '      –      –' : `${meanConfidence.toFixed(3).padStart(7)}${rightShare.toFixed(3).padStart(7)}`;
  return `         ${(index / 10).toFixed(1)} to ${((index + 1) / 10).toFixed(1)}${String(count).padStart(8)}${figures}`;
}

function linesOf({ name, pieces }) {
  const claims = pieces.flatMap((piece) => {
    const { labels, confidences } = answerTo(piece);
    return rightNotes(piece, labels).map((isRight, index) => ({ confidence: confidences[index], isRight }));
  });
  const { bins, calibrationError, auroc } = reliabilityOf(claims);
  return [
    row(`calibration error, ${name}`, '≤ .03', calibrationError.toFixed(3), calibrationError <= mostError),
    row(
      `AUROC, ${name}`,
      '≥ .85',
      auroc === null ? '–' : auroc.toFixed(3),
      auroc === null ? null : auroc >= leastAuroc,
    ),
    `         confidence${'notes'.padStart(6)}${'mean'.padStart(7)}${'right'.padStart(7)}`,
    ...bins.map(binLine),
  ];
}

/** How far the confidence of each note may be believed, the number of lines found from the music. */
export const bench = () => measuredSets().flatMap(linesOf);
