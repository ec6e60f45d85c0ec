import type { BarSigns, WrittenBar } from '../../score/written.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { textElement } from './text-element.ts';

const isSameEnding = (a: readonly number[], b: readonly number[]): boolean => a.join() === b.join();

/** Whether an ending begins at a bar: a bracket goes on over bars of the same ending until a repeat ends it. */
function beginsEnding(bars: readonly WrittenBar[], index: number): boolean {
  const endings = bars[index]?.signs.endings ?? [];
  const before = bars[index - 1]?.signs;
  return (
    endings.length > 0 && (before === undefined || before.repeatTimes > 0 || !isSameEnding(endings, before.endings))
  );
}

const endsEnding = (bars: readonly WrittenBar[], index: number): boolean =>
  (bars[index]?.signs.endings.length ?? 0) > 0 &&
  (index === bars.length - 1 || beginsEnding(bars, index + 1) || (bars[index + 1]?.signs.endings.length ?? 0) === 0);

const endingElement = (endings: readonly number[], type: 'start' | 'stop' | 'discontinue'): XmlElement =>
  element(
    'ending',
    { number: endings.join(', '), type },
    type === 'start' ? [endings.map((pass) => `${pass}.`).join(' ')] : [],
  );

/** The barline before a bar, where a repeat or an ending begins. **Source** MusicXML 4.0, barline. */
export function leftBarline(bars: readonly WrittenBar[], index: number): XmlElement[] {
  const signs = bars[index]?.signs;
  const begins = beginsEnding(bars, index);
  if (signs === undefined || (!signs.startsRepeat && !begins)) return [];
  return [
    element('barline', { location: 'left' }, [
      ...(signs.startsRepeat ? [textElement('bar-style', 'heavy-light')] : []),
      ...(begins ? [endingElement(signs.endings, 'start')] : []),
      ...(signs.startsRepeat ? [element('repeat', { direction: 'forward' })] : []),
    ]),
  ];
}

const repeatElement = ({ repeatTimes, repeatsAfterJump }: BarSigns): XmlElement =>
  element('repeat', {
    direction: 'backward',
    ...(repeatTimes === 2 ? {} : { times: String(repeatTimes) }),
    ...(repeatsAfterJump ? { 'after-jump': 'yes' } : {}),
  });

/** The barline after a bar, where a repeat or an ending ends, or the music does. **Source** MusicXML 4.0, barline. */
export function rightBarline(bars: readonly WrittenBar[], index: number): XmlElement[] {
  const signs = bars[index]?.signs;
  const isLast = index === bars.length - 1;
  const ends = endsEnding(bars, index);
  if (signs === undefined || (signs.repeatTimes === 0 && !isLast && !ends)) return [];
  const isHeavy = signs.repeatTimes > 0 || isLast;
  return [
    element('barline', { location: 'right' }, [
      ...(isHeavy ? [textElement('bar-style', 'light-heavy')] : []),
      ...(ends ? [endingElement(signs.endings, signs.repeatTimes > 0 ? 'stop' : 'discontinue')] : []),
      ...(signs.repeatTimes > 0 ? [repeatElement(signs)] : []),
    ]),
  ];
}
