// What may not stand in code that must give the same answer anywhere and any time.

const passedIn = 'Pass it in (`now`, `random`, `newId`), so that the same input gives the same result.';

/** Rules for music/, contract/ and services: no clock, no chance, no invented ids. */
export const pureSources = {
  'no-restricted-globals': [
    'error',
    ...['setTimeout', 'setInterval', 'crypto', 'performance'].map((name) => ({ name, message: passedIn })),
  ],
  'no-restricted-properties': [
    'error',
    { object: 'Date', property: 'now', message: passedIn },
    { object: 'Math', property: 'random', message: passedIn },
    { object: 'crypto', property: 'randomUUID', message: passedIn },
  ],
  'no-restricted-syntax': [
    'error',
    { selector: "NewExpression[callee.name='Date'][arguments.length=0]", message: passedIn },
    { selector: 'TSEnumDeclaration', message: 'States are unions; enums are not used here.' },
    { selector: 'ExportAllDeclaration', message: 'Name each export; a door that exports all is no door.' },
    { selector: 'ExportDefaultDeclaration', message: 'Name what you export.' },
  ],
};

const engineDependent = [
  'sin',
  'cos',
  'tan',
  'asin',
  'acos',
  'atan',
  'atan2',
  'sinh',
  'cosh',
  'tanh',
  'asinh',
  'acosh',
  'atanh',
  'exp',
  'expm1',
  'log',
  'log2',
  'log10',
  'log1p',
  'pow',
  'cbrt',
  'hypot',
  'random',
];

/** Rules for splitting and sound: only arithmetic whose last bit every engine agrees on. */
export const boundedArithmetic = {
  'no-restricted-properties': [
    'error',
    ...engineDependent.map((property) => ({
      object: 'Math',
      property,
      message: 'Engines differ in its last bits; use our own function from music/basis.',
    })),
    { object: 'Date', property: 'now', message: passedIn },
  ],
  'no-restricted-syntax': [
    'error',
    {
      selector: "BinaryExpression[operator='**']",
      message: 'Engines differ in its last bits; use our own function from music/basis.',
    },
    {
      selector: "AssignmentExpression[operator='**=']",
      message: 'Engines differ in its last bits; use our own function from music/basis.',
    },
    ...pureSources['no-restricted-syntax'].slice(1),
  ],
};
