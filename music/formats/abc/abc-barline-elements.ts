import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { AbcBar } from './abc-events.ts';

/** The numbers of the ending that begins with a bar; null where none does. */
export const endingNumber = ({ endings }: AbcBar): string | null => (endings.length > 0 ? endings.join(',') : null);

function endingStart(bar: AbcBar): XmlElement[] {
  const number = endingNumber(bar);
  const { endingText } = bar;
  return number === null ? [] : [element('ending', { number, type: 'start' }, endingText === '' ? [] : [endingText])];
}

/** Where a repeat or an ending begins. */
export function leftBarline(bar: AbcBar): XmlElement[] {
  const content = [
    ...(bar.startsRepeat ? [textElement('bar-style', 'heavy-light')] : []),
    ...endingStart(bar),
    ...(bar.startsRepeat ? [element('repeat', { direction: 'forward' })] : []),
  ];
  return content.length === 0 ? [] : [element('barline', { location: 'left' }, content)];
}

/** Where a repeat or an ending ends, and how the line is drawn; `open` are the numbers of the ending that began last. */
export function rightBarline(bar: AbcBar, open: string): XmlElement[] {
  const { repeatTimes, style, stopsEnding } = bar;
  const drawn = repeatTimes > 0 ? 'light-heavy' : style;
  const isMany = repeatTimes > 2;
  const content = [
    ...(drawn === null ? [] : [textElement('bar-style', drawn)]),
    ...(stopsEnding ? [element('ending', { number: open, type: 'stop' })] : []),
    ...(repeatTimes > 0
      ? [element('repeat', { direction: 'backward', ...(isMany ? { times: String(repeatTimes) } : {}) })]
      : []),
  ];
  return content.length === 0 ? [] : [element('barline', { location: 'right' }, content)];
}
