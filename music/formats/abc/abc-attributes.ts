import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { AbcClef } from './abc-clefs.ts';
import type { AbcKey } from './abc-key.ts';
import type { AbcMeter, AbcTempo } from './abc-time.ts';

/** **Source** MusicXML 4.0, key: a key that lists its own alterations is a non-traditional one. */
export function keyElement({ fifths, mode, alters, isExplicit }: AbcKey): XmlElement {
  if (!isExplicit)
    return element('key', {}, [textElement('fifths', fifths), ...(mode === null ? [] : [textElement('mode', mode)])]);
  return element(
    'key',
    {},
    Object.entries(alters).flatMap(([step, alter]) => [textElement('key-step', step), textElement('key-alter', alter)]),
  );
}

/** A meter as printed; free time has none. */
export function timeElement({ meter, symbol }: AbcMeter): XmlElement {
  if (meter === null) return element('time', {}, [element('senza-misura')]);
  return element('time', symbol === null ? {} : { symbol }, [
    textElement('beats', meter.beats.join('+')),
    textElement('beat-type', meter.beatUnit),
  ]);
}

/** A clef, with the octave that it shifts by. */
export const clefElement = ({ sign, line, octaves }: AbcClef): XmlElement =>
  element('clef', {}, [
    textElement('sign', sign),
    ...(sign === 'percussion' ? [] : [textElement('line', line)]),
    ...(octaves === 0 ? [] : [textElement('clef-octave-change', octaves)]),
  ]);

/** A tempo as words, as a metronome mark and as what sounds. */
export function tempoElement({ words, quartersPerMinute }: AbcTempo): XmlElement {
  const types = [
    ...(words === '' ? [] : [element('direction-type', {}, [textElement('words', words)])]),
    ...(quartersPerMinute === null
      ? []
      : [
          element('direction-type', {}, [
            element('metronome', {}, [
              textElement('beat-unit', 'quarter'),
              textElement('per-minute', quartersPerMinute),
            ]),
          ]),
        ]),
  ];
  const sound = quartersPerMinute === null ? [] : [element('sound', { tempo: String(quartersPerMinute) })];
  return element('direction', { placement: 'above' }, [...types, ...sound]);
}
