import type { AbcBar } from './abc-events.ts';

/** What a bar line says about the bars on its two sides. */
interface BarLineSigns {
  /** How often the repeat that ends here is played; 0 where none ends. */
  readonly repeatTimes: number;
  readonly startsRepeat: boolean;
  readonly style: AbcBar['style'];
  readonly closesEnding: boolean;
}

function styleOf(text: string): AbcBar['style'] {
  if (text.includes('[|')) return 'heavy-light';
  if (text.includes('|]')) return 'light-heavy';
  return text.includes('||') ? 'light-light' : null;
}

/** The signs of a bar line; `::` ends one repeat and begins another, and each colon more is a playing more. **Source** ABC 2.1, repeat and bar symbols, from memory. */
export function signsOfBarLine(text: string): BarLineSigns {
  const isColons = /^:+$/.test(text);
  const before = isColons ? Math.ceil(text.length / 2) : (text.split(/[|[\]]/)[0] ?? '').length;
  const after = isColons ? Math.floor(text.length / 2) : (/:*$/.exec(text)?.[0].length ?? 0);
  const style = styleOf(text);
  return {
    repeatTimes: before === 0 ? 0 : Math.min(99, before + 1),
    startsRepeat: after > 0,
    style,
    closesEnding: before > 0 || after > 0 || style !== null,
  };
}

/** The passes that an ending's numbers name: `1,3` and `1-3`; one that has words instead is for the pass after the ending before it. */
export function endingsOf(text: string, lastBefore: number): readonly number[] {
  if (!/^\d/.test(text)) return [lastBefore + 1];
  return text.split(',').flatMap((part) => {
    const [from = NaN, to = from] = part.split('-').map((number) => Number.parseInt(number, 10));
    return from >= 1 && to >= from && to - from < 99
      ? Array.from({ length: to - from + 1 }, (_, index) => from + index)
      : [];
  });
}
