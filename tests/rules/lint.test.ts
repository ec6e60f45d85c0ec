import { ESLint } from 'eslint';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

const here = 'tests/rules/violations';

const linter = new ESLint();

/** Lints the text of a violation as if it stood where the rule is meant for; `standIn` is a real file, so that types are known. */
async function rulesBrokenBy(file: string, standIn: string): Promise<string[]> {
  const [result] = await linter.lintText(readFileSync(`${here}/${file}`, 'utf8'), { filePath: standIn });
  return (result?.messages ?? []).map((message) => message.ruleId ?? message.message);
}

const cases: readonly (readonly [file: string, standIn: string, rules: readonly string[]])[] = [
  ['music/impure.ts', 'music/basis/result.ts', ['no-restricted-properties', 'no-restricted-syntax']],
  ['music/undocumented.ts', 'music/basis/result.ts', ['jsdoc/require-jsdoc']],
  ['music/shapes.ts', 'music/basis/result.ts', ['no-restricted-syntax']],
  [
    'music/split/unstable-arithmetic.ts',
    'music/split/voice-note.ts',
    ['no-restricted-properties', 'no-restricted-syntax'],
  ],
  [
    'web/loose-promise.ts',
    'web/lib/paths.ts',
    ['@typescript-eslint/no-floating-promises', '@typescript-eslint/no-explicit-any'],
  ],
  ['web/long-file.ts', 'web/lib/paths.ts', ['max-lines']],
];

it.each(cases)('the lint rules catch %s standing in for %s', async (file, standIn, rules) => {
  const broken = await rulesBrokenBy(file, standIn);
  for (const rule of rules) expect(broken).toContain(rule);
});
