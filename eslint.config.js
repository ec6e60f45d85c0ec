import jsdoc from 'eslint-plugin-jsdoc';
import reactHooks from 'eslint-plugin-react-hooks';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import tseslint from 'typescript-eslint';
import { boundedArithmetic, pureSources } from './scripts/lint/purity.js';

const root = dirname(fileURLToPath(import.meta.url));
const tests = ['**/*.test.ts', '**/*.test.tsx', 'tests/**'];

export default tseslint.config(
  { ignores: ['dist/**', 'data/**', 'node_modules/**', '.cache/**', 'tests/rules/violations/**'] },
  ...tseslint.configs.strictTypeChecked.map((config) => ({ ...config, files: ['**/*.ts', '**/*.tsx'] })),
  {
    files: ['**/*.ts', '**/*.tsx'],
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: root,
      },
    },
    rules: {
      'max-lines': ['error', { max: 400, skipBlankLines: false, skipComments: false }],
      'max-lines-per-function': ['error', { max: 60, skipBlankLines: true, skipComments: true }],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-definitions': ['error', 'interface'],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/no-unnecessary-type-parameters': 'off', // fights with branded builders; the compiler checks the rest
      'no-restricted-syntax': [
        'error',
        { selector: 'TSEnumDeclaration', message: 'States are unions; enums are not used here.' },
        { selector: 'ExportAllDeclaration', message: 'Name each export; a door that exports all is no door.' },
        { selector: 'ExportDefaultDeclaration', message: 'Name what you export.' },
      ],
    },
  },
  {
    files: ['**/*.data.ts', 'seed/pieces/**'],
    rules: { 'max-lines': 'off' },
  },
  {
    files: ['music/**/*.ts', 'contract/**/*.ts'],
    ignores: tests,
    plugins: { jsdoc },
    rules: {
      'jsdoc/require-jsdoc': [
        'error',
        {
          publicOnly: true,
          contexts: ['ExportNamedDeclaration > FunctionDeclaration', 'ExportNamedDeclaration > TSInterfaceDeclaration'],
          require: { FunctionDeclaration: true, ClassDeclaration: true },
        },
      ],
      ...pureSources,
    },
  },
  {
    files: ['music/split/**/*.ts', 'music/fingering/**/*.ts', 'music/sound/**/*.ts'],
    ignores: tests,
    rules: boundedArithmetic,
  },
  { files: ['api/**/*.service.ts'], rules: pureSources },
  { files: ['web/**/*.tsx'], plugins: { 'react-hooks': reactHooks }, rules: reactHooks.configs.recommended.rules },
  { files: ['web/**/*.tsx'], ignores: tests, rules: { 'max-lines': ['error', 150] } },
  {
    files: tests,
    rules: {
      'max-lines-per-function': 'off',
      '@typescript-eslint/no-non-null-assertion': 'off', // a test may insist
      'no-restricted-syntax': [
        'error',
        {
          selector:
            'CallExpression[callee.object.name=/^(it|test|describe)$/][callee.property.name=/^(skip|todo|only)$/]',
          message: 'A skipped or focused test is a defect.',
        },
      ],
    },
  },
  { files: ['vitest.config.ts', 'web/vite.config.ts'], rules: { 'no-restricted-syntax': 'off' } }, // these tools read default exports
);
