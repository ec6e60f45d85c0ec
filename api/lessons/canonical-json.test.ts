import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalJson } from './canonical-json.ts';

it('is one text for one value, whatever the order of its keys', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
      const reversed = Object.fromEntries(Object.entries(value).reverse());
      expect(canonicalJson(reversed)).toBe(canonicalJson(value));
      expect(JSON.parse(canonicalJson(value))).toEqual(JSON.parse(JSON.stringify(value)));
    }),
    { seed: 1 },
  );
});

// The sorting example of RFC 8785, section 3.2.3.
it('orders keys by their UTF-16 code units', () => {
  const value = {
    '\u20ac': 'Euro Sign',
    '\r': 'Carriage Return',
    '\ufb33': 'Hebrew Letter Dalet With Dagesh',
    '1': 'One',
    '\ud83d\ude00': 'Emoji: Grinning Face',
    '\u0080': 'Control',
    '\u00f6': 'Latin Small Letter O With Diaeresis',
  };
  expect(canonicalJson(value).match(/Carriage|One|Control|Latin|Euro|Emoji|Hebrew/g)).toEqual([
    'Carriage',
    'One',
    'Control',
    'Latin',
    'Euro',
    'Emoji',
    'Hebrew',
  ]);
});
