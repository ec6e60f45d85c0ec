import type { TabLog } from './tab-log.ts';
import type { TextLine } from './text-line.ts';

const dashes = /[\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2500\u2501\uff0d\u00ad]/;
const bars = /[\u2502\u2503\u00a6\uff5c\u2758\u01c0\u2016]/;
const invisible = /[\u200b\u200c\u200d\u2060\ufeff]/;
const tabStop = 8;

/** What stands for a sign of the file. **Source** common practice, no source. */
function plainSign(sign: string, at: number): string {
  if (sign === '\t') return ' '.repeat(tabStop - (at % tabStop));
  if (dashes.test(sign)) return '-';
  if (bars.test(sign)) return '|';
  if (invisible.test(sign)) return '';
  return /\s/.test(sign) ? ' ' : sign;
}

const quotation = /^(?:\s*>)+\s?/;

function plainLine(source: string, lineNumber: number): TextLine {
  const from = quotation.exec(source)?.[0].length ?? 0;
  const columns: number[] = [];
  const longDashes: number[] = [];
  let text = '';
  for (let at = from; at < source.length; at += 1) {
    const sign = source.charAt(at);
    if (sign === '\u2013' || sign === '\u2014') longDashes.push(text.length);
    const plain = plainSign(sign, text.length);
    for (let count = 0; count < plain.length; count += 1) columns.push(at + 1);
    text += plain;
  }
  const isMoved = columns.some((column, index) => column !== index + 1);
  return { lineNumber, text: text.trimEnd(), columns: isMoved ? columns : null, longDashes };
}

function reportRepairs(sources: readonly string[], lines: readonly TextLine[], log: TabLog): void {
  const smart = sources.findIndex((source) => dashes.test(source));
  if (smart >= 0) {
    const detail = 'Typographic dashes stand for plain ones; each was read as a dash.';
    log.add('value-repaired', 'note', detail, lines[smart], sources[smart]?.search(dashes) ?? 0);
  }
  const tabbed = sources.findIndex((source) => source.includes('\t'));
  if (tabbed >= 0) {
    const detail = `Tabulators stand in the text; each was read as spaces up to the next ${tabStop}th column.`;
    const line = lines[tabbed];
    log.add(
      'value-repaired',
      'note',
      detail,
      line === undefined ? null : { ...line, columns: null },
      sources[tabbed]?.indexOf('\t') ?? 0,
    );
  }
}

/** The lines of a text, whatever ends them, with what had to be made plain in them reported. */
export function textLinesOf(text: string, log: TabLog): TextLine[] {
  const sources = text.split(/\r\n|\r|\n|\u2028/);
  const lines = sources.map((source, index) => plainLine(source, index + 1));
  reportRepairs(sources, lines, log);
  return lines;
}
