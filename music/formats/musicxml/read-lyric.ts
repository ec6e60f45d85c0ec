import type { Lyric } from '../../score/marks.ts';
import { childOf, childrenOf, elementsOf, textOf, type XmlElement } from '../xml/tree.ts';
import type { RawLyric } from './raw-part.ts';

const syllabics: readonly Lyric['syllabic'][] = ['single', 'begin', 'middle', 'end'];

/** The sign between two syllables that are sung to one note. */
const elision = '‿';

/** The text of a lyric; syllables that an elision joins stand with its sign between them. */
function textOfLyric(lyric: XmlElement): string {
  return elementsOf(lyric)
    .flatMap((node) => {
      if (node.name === 'text') return [textOf(node)];
      return node.name === 'elision' ? [textOf(node) || elision] : [];
    })
    .join('');
}

/** What a `<lyric>` sings: a syllable, laughing, humming, or the line that holds one; null where it says nothing. **Source** MusicXML 4.0, lyric. */
export function readLyric(lyric: XmlElement): RawLyric | null {
  const text = textOfLyric(lyric) || (['laughing', 'humming'].find((name) => childOf(lyric, name) !== undefined) ?? '');
  const extend = childOf(lyric, 'extend');
  const isExtended = extend !== undefined && extend.attributes['type'] !== 'stop';
  if (text === '' && extend === undefined) return null;
  const said = textOf(childrenOf(lyric, 'syllabic').at(-1));
  const syllabic = syllabics.find((each) => each === said) ?? 'single';
  const verse = lyric.attributes['number'] ?? lyric.attributes['name'] ?? '1';
  return { verse, text, syllabic, isExtended };
}
