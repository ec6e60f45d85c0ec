import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { AbcBar } from './abc-events.ts';

function endingElement({ endings, endingText }: AbcBar, type: 'start' | 'stop'): XmlElement {
  const number = endings.length > 0 ? endings.join(',') : '1';
  return element('ending', { number, type }, type === 'start' && endingText !== '' ? [endingText] : []);
}

/** Where a repeat or an ending begins. */
export function leftBarline(bar: AbcBar): XmlElement[] {
  const content = [
    ...(bar.startsRepeat ? [textElement('bar-style', 'heavy-light')] : []),
    ...(bar.endings.length > 0 ? [endingElement(bar, 'start')] : []),
    ...(bar.startsRepeat ? [element('repeat', { direction: 'forward' })] : []),
  ];
  return content.length === 0 ? [] : [element('barline', { location: 'left' }, content)];
}

/** Where a repeat or an ending ends, and how the line is drawn. */
export function rightBarline(bar: AbcBar): XmlElement[] {
  const { repeatTimes, style, stopsEnding } = bar;
  const drawn = repeatTimes > 0 ? 'light-heavy' : style;
  const isMany = repeatTimes > 2;
  const content = [
    ...(drawn === null ? [] : [textElement('bar-style', drawn)]),
    ...(stopsEnding ? [element('ending', { number: '1', type: 'stop' })] : []),
    ...(repeatTimes > 0
      ? [element('repeat', { direction: 'backward', ...(isMany ? { times: String(repeatTimes) } : {}) })]
      : []),
  ];
  return content.length === 0 ? [] : [element('barline', { location: 'right' }, content)];
}
