import { join } from 'node:path';
import ts from 'typescript';
import { expect, it } from 'vitest';

/** The complaints of the compiler about one more file in music/, under the settings of music/tsconfig.json. */
function complaintsAbout(source: string): string[] {
  const { config } = ts.readConfigFile('music/tsconfig.json', (path) => ts.sys.readFile(path)) as { config: unknown };
  const { options } = ts.parseJsonConfigFileContent(config, ts.sys, 'music');
  const file = join(process.cwd(), 'music', 'impure.ts');
  const host = ts.createCompilerHost(options);
  const getSourceFile = host.getSourceFile.bind(host);
  host.getSourceFile = (name, version) =>
    name === file ? ts.createSourceFile(name, source, version) : getSourceFile(name, version);
  const program = ts.createProgram([file], options, host);
  return ts.getPreEmitDiagnostics(program).map((found) => ts.flattenDiagnosticMessageText(found.messageText, '\n'));
}

it.each(['window', 'process', 'Buffer', 'setTimeout'])('music/ does not compile with `%s`', (name) => {
  expect(complaintsAbout(`export const impure = ${name};\n`).join('\n')).toContain(`Cannot find name '${name}'`);
});

it('music/ compiles without it', () => {
  expect(complaintsAbout('export const pure = 1;\n')).toEqual([]);
});
