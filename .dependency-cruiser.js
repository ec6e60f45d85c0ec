// Who may import whom. Each rule has a deliberate violation in tests/rules/violations that its own test catches.
const musicOrder = [
  'basis',
  'score',
  'fingering',
  'formats',
  'operations',
  'split',
  'lines',
  'form',
  'perform',
  'sound',
];

/** Inside music/ the folders form a list; each imports only earlier ones. */
const musicRules = musicOrder.slice(0, -1).map((folder, index) => ({
  name: `music-${folder}-imports-earlier-folders-only`,
  comment: `music/${folder} comes before ${musicOrder.slice(index + 1).join(', ')}.`,
  severity: 'error',
  from: { path: `(^|/)music/${folder}/`, pathNot: '\\.test\\.tsx?$' },
  to: { path: `(^|/)music/(${musicOrder.slice(index + 1).join('|')})/` },
}));

const notTests = '(\\.test\\.tsx?$|^tests/(?!rules/violations/))';

/** @type {import('dependency-cruiser').IConfiguration} */
export default {
  forbidden: [
    {
      name: 'no-cycles',
      comment: 'A cycle means that two ideas are one, or that one is in the wrong file.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    ...musicRules,
    {
      name: 'music-imports-no-other-package',
      comment: 'music/ is the pure core: it knows no wire, no server, no screen.',
      severity: 'error',
      from: { path: '(^|/)music/', pathNot: notTests },
      to: {
        path: '(^|/)(contract|recording|api|web|seed|migrations|launch|command|measure|tests)/',
        pathNot: '(^|/)(music|node_modules)/|tests/rules/violations/music',
      },
    },
    {
      name: 'music-uses-no-node',
      comment: 'music/ runs in a browser, in a worklet and on the server alike.',
      severity: 'error',
      from: { path: '(^|/)music/', pathNot: notTests },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'contract-imports-music-only',
      comment: 'What crosses the wire is built on the core and on nothing else of ours.',
      severity: 'error',
      from: { path: '(^|/)contract/', pathNot: notTests },
      to: {
        path: '(^|/)(recording|api|web|seed|migrations|launch|command|measure)/',
        pathNot: '(^|/)(node_modules|contract)/',
      },
    },
    {
      name: 'nothing-imports-web',
      comment: 'Screens are leaves.',
      severity: 'error',
      from: {
        path: '(^|/)(music|contract|recording|api|migrations|seed|launch|command|measure)/',
        pathNot: [notTests, '(^|/)web/'],
      },
      to: { path: '(^|/)web/', pathNot: '(^|/)node_modules/' },
    },
    {
      name: 'only-the-start-imports-api',
      comment: 'The server is reached over its routes; only what starts it or fills it may import it.',
      severity: 'error',
      from: { path: '(^|/)(music|contract|recording|web|migrations|command|measure)/', pathNot: notTests },
      to: { path: '(^|/)api/', pathNot: '(^|/)(node_modules|web/lib)/' },
    },
    {
      name: 'music-has-one-door',
      comment: 'music/ is entered through its index.ts.',
      severity: 'error',
      from: { path: '(^|/)(contract|recording|api|web|seed|launch|command|measure)/', pathNot: notTests },
      to: { path: '(^|/)music/.+', pathNot: '(^|/)music/index\\.ts$|(^|/)node_modules/' },
    },
    {
      name: 'contract-has-one-door',
      comment: 'contract/ is entered through its index.ts.',
      severity: 'error',
      from: { path: '(^|/)(api|web|seed|launch)/', pathNot: notTests },
      to: { path: '(^|/)contract/.+', pathNot: '(^|/)contract/index\\.ts$|(^|/)node_modules/' },
    },
    {
      name: 'recording-imports-music-only',
      comment: 'Sound files are made the same way by the page, the server and the command, so it knows none of them.',
      severity: 'error',
      from: { path: '(^|/)recording/', pathNot: notTests },
      to: {
        path: '(^|/)(contract|api|web|seed|migrations|launch|command|measure)/',
        pathNot: '(^|/)(node_modules|recording)/',
      },
    },
    {
      name: 'recording-has-one-door',
      comment: 'recording/ is entered through its index.ts.',
      severity: 'error',
      from: { path: '(^|/)(music|contract|api|web|seed|launch|command|measure)/', pathNot: notTests },
      to: { path: '(^|/)recording/.+', pathNot: '(^|/)recording/index\\.ts$|(^|/)node_modules/' },
    },
    {
      name: 'command-imports-music-and-recording-only',
      comment: 'The command works on files: it needs no server, no database and no screen.',
      severity: 'error',
      from: { path: '(^|/)command/', pathNot: notTests },
      to: { path: '(^|/)(contract|api|web|seed|migrations|launch)/', pathNot: '(^|/)(node_modules|command)/' },
    },
    {
      name: 'nothing-imports-command',
      comment: 'The command is a door; what others need of it belongs behind it.',
      severity: 'error',
      from: { path: '(^|/)(music|contract|recording|api|web|migrations|seed|launch|measure)/', pathNot: notTests },
      to: { path: '(^|/)command/', pathNot: '(^|/)node_modules/' },
    },
    {
      name: 'typeorm-stays-in-repositories',
      comment: 'Repositories, entities and the database module alone know how records are kept.',
      severity: 'error',
      from: { path: '(^|/)api/', pathNot: '(\\.repository\\.ts|\\.entity\\.ts|\\.module\\.ts)$|(^|/)api/database/' },
      to: { path: 'node_modules/(typeorm|@nestjs/typeorm)/' },
    },
    {
      name: 'web-features-stand-alone',
      comment: 'A feature never imports a feature; the route composes them.',
      severity: 'error',
      from: { path: '(^|/)web/features/([^/]+)/', pathNot: notTests },
      to: { path: '(^|/)web/features/', pathNot: '(^|/)web/features/$2/' },
    },
    {
      name: 'web-parts-do-not-know-screens',
      comment: 'lib, ui, engraving and playback come before features, and features before app.',
      severity: 'error',
      from: { path: '(^|/)web/(lib|ui|engraving|playback)/', pathNot: notTests },
      to: { path: '(^|/)web/(features|app)/' },
    },
    {
      name: 'web-features-do-not-know-the-app',
      comment: 'The app composes features, not the other way round.',
      severity: 'error',
      from: { path: '(^|/)web/features/', pathNot: notTests },
      to: { path: '(^|/)web/app/' },
    },
    {
      name: 'only-tests-import-measure',
      comment: 'How well the proposal does is asked from outside; nothing that ships knows of it.',
      severity: 'error',
      from: { path: '(^|/)(music|contract|recording|api|web|migrations|seed|launch|command)/', pathNot: notTests },
      to: { path: '(^|/)measure/' },
    },
    {
      name: 'no-tests-in-the-product',
      comment: 'Nothing that ships imports a test.',
      severity: 'error',
      from: { pathNot: notTests },
      to: { path: '(\\.test\\.tsx?$|(^|/)tests/(?!rules/violations/))' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.base.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'types', 'node', 'default'],
      extensions: ['.ts', '.tsx', '.js', '.mjs', '.json'],
    },
  },
};
