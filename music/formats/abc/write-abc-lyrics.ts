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

/** The w: lines under a line of music, one for each verse that it has. */
export function lyricLines(events: readonly WrittenEvent[]): readonly string[] {
  const sung = events.filter(({ heads }) => heads.length > 0);
  const verses = new Set(
    sung.flatMap(({ heads }) => heads.flatMap(({ details }) => details?.lyrics ?? [])).map(({ verse }) => verse),
  );
  return [...verses].sort().map((verse) => `w: ${wordsOf(sung, verse)}`);
}
