import fc from 'fast-check';
import { expect, it } from 'vitest';
import { hashOfSecret, newCode, newToken, plainCode } from './secrets.ts';

const bytes = (length: number): fc.Arbitrary<Uint8Array> => fc.uint8Array({ minLength: length, maxLength: length });

it('makes codes that are the same code however they are typed', () => {
  fc.assert(
    fc.property(bytes(12), (random) => {
      const code = newCode(() => random);
      expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}(-[0-9A-HJKMNP-TV-Z]{4}){2}$/);
      const typed = [
        code.toLowerCase(),
        code.replaceAll('-', ''),
        code.replaceAll('0', 'o').replaceAll('1', 'l'),
        ` ${code} `,
      ];
      for (const text of typed) expect(plainCode(text)).toBe(code.replaceAll('-', ''));
    }),
    { seed: 1 },
  );
});

it('uses every letter of the alphabet for codes, and all bytes for tokens', () => {
  const letters = new Set(
    Array.from({ length: 32 }, (_, value) => newCode((count) => new Uint8Array(count).fill(value))[0]),
  );
  expect(letters.size).toBe(32);
  expect(newToken((count) => new Uint8Array(count).fill(255))).toHaveLength(32);
});

// SHA-256 of "abc": FIPS 180-4, as NIST's example values give it.
it('keeps secrets as their SHA-256', () => {
  expect(hashOfSecret('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});
