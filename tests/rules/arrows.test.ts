import { execFileSync } from 'node:child_process';
import { beforeAll, expect, it } from 'vitest';

interface Violation {
  readonly from: string;
  readonly to: string;
  readonly rule: { readonly name: string };
}

interface RuleFile {
  readonly default: { readonly forbidden: readonly { readonly name: string }[] };
}

const ruleFile: string = '../../.dependency-cruiser.js';
let violations: Violation[];
const here = 'tests/rules/violations';

beforeAll(() => {
  const args = ['node_modules/dependency-cruiser/bin/dependency-cruise.mjs', '--output-type', 'json', here];
  const output = execFileSync(process.execPath, args, { encoding: 'utf8', maxBuffer: 1 << 26 });
  violations = (JSON.parse(output) as { summary: { violations: Violation[] } }).summary.violations;
});

const expected: readonly (readonly [rule: string, file: string])[] = [
  ['no-cycles', 'web/lib/cycle-a.ts'],
  ['music-basis-imports-earlier-folders-only', 'music/basis/imports-later-folder.ts'],
  ['music-imports-no-other-package', 'music/imports-api.ts'],
  ['music-uses-no-node', 'music/uses-node.ts'],
  ['contract-imports-music-only', 'contract/imports-api.ts'],
  ['nothing-imports-web', 'api/imports-web.ts'],
  ['only-the-start-imports-api', 'web/imports-api.ts'],
  ['music-has-one-door', 'web/enters-music-by-a-window.ts'],
  ['contract-has-one-door', 'web/enters-contract-by-a-window.ts'],
  ['typeorm-stays-in-repositories', 'api/courses/course.service.ts'],
  ['web-features-stand-alone', 'web/features/one/imports-feature.ts'],
  ['web-parts-do-not-know-screens', 'web/ui/imports-feature.ts'],
  ['web-features-do-not-know-the-app', 'web/features/one/imports-app.ts'],
  ['only-tests-import-measure', 'api/imports-measure.ts'],
  ['recording-imports-music-only', 'recording/imports-contract.ts'],
  ['recording-has-one-door', 'web/enters-recording-by-a-window.ts'],
  ['command-imports-music-and-recording-only', 'command/imports-contract.ts'],
  ['nothing-imports-command', 'api/imports-command.ts'],
  ['no-tests-in-the-product', 'web/lib/imports-test.ts'],
];

it.each(expected)('the rule %s catches %s', (rule, file) => {
  expect(violations.map((found) => [found.rule.name, found.from])).toContainEqual([rule, `${here}/${file}`]);
});

it('has a deliberate violation for every rule, one standing for the like rules of the folders of music', async () => {
  const { forbidden } = ((await import(ruleFile)) as RuleFile).default;
  const proved = new Set(expected.map(([rule]) => rule));
  const names = forbidden.map((rule) => rule.name).filter((name) => !/^music-\w+-imports-earlier/.test(name));
  expect(names.filter((name) => !proved.has(name))).toEqual([]);
});
