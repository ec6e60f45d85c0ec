import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openContainer } from './open-container.ts';

const score = '<score-partwise/>';

/** What is found in an archive of these files: the text of the score and how many issues there are, or the refusal's code. */
function opened(files: Readonly<Record<string, string>>): readonly [string, number] | string {
  const bytes = zipSync(Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])));
  const result = openContainer(bytes);
  if (!result.ok) return result.refusal.code;
  return [new TextDecoder().decode(result.value.value), result.value.issues.length];
}

const container = (path: string, prefix = ''): string =>
  `<${prefix}container><${prefix}rootfiles><${prefix}rootfile full-path="${path}"/></${prefix}rootfiles></${prefix}container>`;

describe('the score of a packed file (MusicXML 4.0, compressed .mxl files)', () => {
  it.each([
    ['as it is named', 'a/b/score.xml', 'a/b/score.xml'],
    ['with a step to where it is', './score.xml', 'score.xml'],
    ['from the root', '/score.xml', 'score.xml'],
    ['with backslashes', 'a\\score.xml', 'a/score.xml'],
    ['with backslashes in the archive', 'a/score.xml', 'a\\score.xml'],
    ['with escapes', 'my%20score.xml', 'my score.xml'],
    ['with a per cent sign that is no escape', '100%.xml', '100%.xml'],
    ['in other letters', 'Score.XML', 'score.xml'],
    ['with blanks around it', ' score.xml ', 'score.xml'],
  ])('is found where its path is written %s', (_, written, name) => {
    expect(opened({ 'META-INF/container.xml': container(written), [name]: score, 'z.xml': '<z/>' })).toEqual([
      score,
      0,
    ]);
  });

  it('is found by a container in other letters or with a prefix', () => {
    const files = { 'a.xml': '<a/>', 'score.xml': score };
    expect(opened({ ...files, 'meta-inf/Container.xml': container('score.xml') })).toEqual([score, 0]);
    expect(opened({ ...files, 'META-INF/container.xml': container('score.xml', 'c:') })).toEqual([score, 0]);
  });

  it.each([
    ['names a file that is not there', container('gone.xml')],
    ['names nothing', '<container/>'],
    ['is broken', '<container>'],
  ])('is the only one there is where the container %s, which is told', (_, text) => {
    expect(opened({ 'META-INF/container.xml': text, 'score.xml': score })).toEqual([score, 1]);
    expect(opened({ 'META-INF/container.xml': text, 'score.xml': score, 'b.xml': '<b/>' })).toMatch(
      /^(file-unreadable|markup-broken)$/,
    );
  });
});
