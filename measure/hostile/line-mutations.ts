import type { Draw } from './draw.ts';
import { nastyNumbers, textMutation, type Mutation } from './mutation.ts';

const lines = (text: string): string[] => text.split('\n');

function intoText(text: string, draw: Draw, put: string): string {
  const at = draw.below(text.length);
  return text.slice(0, at) + put + text.slice(at);
}

const plainDamage: readonly Mutation[] = [
  textMutation('line lost', (text, draw) => {
    const all = lines(text);
    all.splice(draw.below(all.length), 1 + draw.below(3));
    return all.join('\n');
  }),
  textMutation('line many times', (text, draw) => {
    const all = lines(text);
    const at = draw.below(all.length);
    const times = draw.pick([1, 2, 10, 100]);
    all.splice(at, 0, ...Array.from({ length: times }, () => all[at] ?? ''));
    return all.join('\n');
  }),
  textMutation('lines swapped', (text, draw) => {
    const all = lines(text);
    const [one, other] = [draw.below(all.length), draw.below(all.length)];
    [all[one], all[other]] = [all[other] ?? '', all[one] ?? ''];
    return all.join('\n');
  }),
  textMutation('lines joined', (text, draw) => text.replaceAll(draw.pick(['\n', '|', ' ']), '')),
  textMutation('other line ends', (text, draw) => text.replaceAll('\n', draw.pick(['\r', '\r\n', '\n\n', '\u2028']))),
  textMutation('numbers that cannot be', (text, draw) => {
    const found = [...text.matchAll(/\d+/g)];
    if (found.length === 0) return text;
    const { index, 0: number } = draw.pick(found);
    return text.slice(0, index) + draw.pick(nastyNumbers) + text.slice(index + number.length);
  }),
];

const abcSigns = [
  'Z1000000|',
  'A99999999999',
  'A/0',
  'A////////////',
  '(9:1:999',
  '(3:0:3',
  '[[[[[[',
  '|:|:|:|:',
  ':|1000000',
  '[1-1000000',
  '"',
  '!',
  '{',
  '&&&&',
  '\nM:1000000/1\n',
  '\nM:0/0\n',
  '\nL:1/0\n',
  '\nQ:1/4=0\n',
  '\nQ:1/0=1e300\n',
  '\nK:Zzz\n',
  '\nV:99999\n',
  '\nX:1\n',
  '\nI:linebreak $\n',
  '\nP:(A99999B)99999\n',
  '\nU:T=!trill!\n',
  '\nw:---***___\n',
  '[K:C#######]',
  'z1000000000',
  '>>>>>>>>',
  '-'.repeat(500),
  '+'.repeat(500),
  '\n+:x\n',
  '\u0000',
];

const tabSigns = [
  '999',
  '-'.repeat(20_000),
  '|',
  '||||||||',
  '1h2p1h2p1h2',
  '(((((',
  '<12>',
  '~~~~~',
  '/\\/\\/\\',
  'x'.repeat(500),
  '-1-',
  '\t\t',
  '10'.repeat(300),
  '💥',
  ':|x1000000',
  '\u0000',
];

/** Damage to ABC that knows what it breaks. */
export const abcMutations: readonly Mutation[] = [
  ...plainDamage,
  textMutation('signs that cannot be', (text, draw) => intoText(text, draw, draw.pick(abcSigns))),
  textMutation('many signs that cannot be', (text, draw) => {
    let changed = text;
    for (let left = 8; left > 0; left -= 1) changed = intoText(changed, draw, draw.pick(abcSigns));
    return changed;
  }),
  {
    ...textMutation('a flood of notes', (text, draw) => text + 'A B c d|'.repeat(draw.pick([100, 2000, 20_000]))),
    isHeavy: true,
  },
];

/** Damage to text tablature that knows what it breaks. */
export const tabMutations: readonly Mutation[] = [
  ...plainDamage,
  textMutation('signs that cannot be', (text, draw) => intoText(text, draw, draw.pick(tabSigns))),
  textMutation('many signs that cannot be', (text, draw) => {
    let changed = text;
    for (let left = 8; left > 0; left -= 1) changed = intoText(changed, draw, draw.pick(tabSigns));
    return changed;
  }),
  { ...textMutation('many systems', (text, draw) => `${text}\n\n`.repeat(draw.pick([2, 10, 60]))), isHeavy: true },
];
