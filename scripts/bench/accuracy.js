import { accuracyOf, mean } from '../../dist/measure/accuracy.js';
import { answerTo, measuredSets } from './measured-sets.js';

const shown = (value) => (Number.isNaN(value) ? '    –' : value.toFixed(3));
const head = ['P', 'R', 'F1', 'right', 'inner'].map((name) => name.padStart(6)).join('');

function columnsOf(results) {
  const inner = results.map(({ innerF1 }) => innerF1).filter((value) => value !== null);
  const means = ['precision', 'recall', 'f1', 'right'].map((key) => mean(results.map((result) => result[key])));
  return [...means, mean(inner)].map((value) => shown(value).padStart(6)).join('');
}

function lineOf({ name, pieces }) {
  const found = pieces.map((piece) => accuracyOf(piece, answerTo(piece).labels));
  const given = pieces.map((piece, index) => accuracyOf(piece, answerTo(piece, found[index].trueLines).labels));
  const counted = found.filter(({ trueLines, foundLines }) => trueLines === foundLines).length;
  const share = `${counted}/${pieces.length}`;
  return `${name.padEnd(36)}${share.padStart(7)}${columnsOf(found)}  |${columnsOf(given)}`;
}

/** How well pieces are split, with the number of lines found from the music and given. */
export function bench() {
  return [
    'How well lines are found: means over pieces. P, R, F1: links between neighbours; right: notes on the right line after one best match;',
    'inner: F1 of the lines between the outer ones; counted: pieces whose number of lines was found.',
    `${''.padEnd(36)}counted${' found'.padEnd(head.length)}  | given`,
    `${''.padEnd(43)}${head}  |${head}`,
    ...measuredSets().map(lineOf),
  ];
}
