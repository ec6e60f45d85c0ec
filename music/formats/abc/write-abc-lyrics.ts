import type { WrittenEvent } from '../../score/written.ts';

const escaped = (text: string): string =>
  text
    .replaceAll('-', '\\-')
    .replace(/\s+/g, '~')
    .replace(/[|*_%]/g, '');

function wordsOf(events: readonly WrittenEvent[], verse: string): string {
  let isHeld = false;
  const words = events.map(({ heads }) => {
    const lyric = heads.flatMap(({ details }) => details?.lyrics ?? []).find((one) => one.verse === verse);
    const text = lyric === undefined ? '' : escaped(lyric.text);
    if (lyric === undefined || text === '') return isHeld ? '_' : '*';
    isHeld = lyric.isExtended;
    return lyric.syllabic === 'begin' || lyric.syllabic === 'middle' ? `${text}-` : text;
  });
  return words.join(' ').replace(/[\s*]+$/, '');
}

/** The w: lines under a line of music, of the verses of its whole voice: the place of such a line says which verse it is, so that one is written for each up to the last that has words here. */
export function lyricLines(events: readonly WrittenEvent[], verses: readonly string[]): readonly string[] {
  const sung = events.filter(({ heads }) => heads.length > 0);
  const words = verses.map((verse) => wordsOf(sung, verse));
  const last = words.findLastIndex((text) => text !== '');
  return words.slice(0, last + 1).map((text) => `w: ${text === '' ? '*' : text}`);
}
