import { describe, expect, it } from 'vitest';
import { numberAt, numberOf } from './number.ts';

// Truth: the language's own Number(), which ECMA-262 requires to round correctly up to 20 digits and which V8 rounds exactly.
const same = (text: string) => {
  const want = Number(text);
  const got = numberOf(text, '.');
  const comma = numberOf(text.replace('.', ','), ',');
  // The bare comparison first: expect() itself would cost most of the time of some hundred thousand cases.
  if (!Object.is(got, want) || !Object.is(comma, want))
    expect({ text, got, comma }).toEqual({ text, got: want, comma: want });
};

function random(seed: number): () => number {
  let s = seed >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 32;
  };
}

describe('reading decimal numbers', () => {
  it('equals Number() on chosen cases', () => {
    for (const text of [
      '0',
      '-0',
      '-0.0',
      '1',
      '+1',
      '-1.5',
      '.5',
      '5.',
      '00012.500',
      '0.1',
      '0.0022222222222222222',
      '0.006666666666666666',
      '9007199254740993',
      '9007199254740993.5',
      '123456789012345678',
      '1234567890123456789',
      '0.000000000000000000000001',
      '1e22',
      '1e23',
      '8.5e22',
      '1.234567E+02',
      '5e-324',
      '1.7976931348623157e308',
      '2.2250738585072011e-308',
      '179769313486231570000',
      '99999999999999999',
      '0.30000000000000004',
      '4.35',
      '34.979999999999997',
    ])
      same(text);
  });

  it('equals Number() on the shortest form of random doubles and on random digit strings', () => {
    const next = random(20260114);
    const bits = new DataView(new ArrayBuffer(8));
    for (let i = 0; i < 60000; i++) {
      bits.setUint32(0, next() * 2 ** 32);
      bits.setUint32(4, next() * 2 ** 32);
      const any = bits.getFloat64(0);
      if (Number.isFinite(any)) same(String(any));
      same(String((next() - 0.5) * 10 ** Math.floor(next() * 12 - 4)));
      const digits = Array.from({ length: 1 + Math.floor(next() * 20) }, () => Math.floor(next() * 10)).join('');
      const point = Math.floor(next() * digits.length);
      same(`${digits.slice(0, point)}.${digits.slice(point)}`);
    }
  });

  it('equals Number() at and beside the midpoint of two doubles', () => {
    const next = random(7);
    for (let i = 0; i < 20000; i++) {
      // An odd multiple of 2^-k/2 beside a 53-bit integer: exactly halfway, written in full, with 16 to 18 digits.
      const whole = 2 ** 53 + 2 * Math.floor(next() * 2 ** 52);
      const middle = BigInt(whole) + 1n;
      for (const near of [middle - 1n, middle, middle + 1n]) {
        same(near.toString());
        const text = near.toString();
        for (const cut of [1, 5, text.length - 1]) same(`${text.slice(0, cut)}.${text.slice(cut)}`);
      }
    }
  });

  it('tells where the number ends and what is none', () => {
    const bytes = new TextEncoder().encode('12.5e,\n');
    const end = new Int32Array(1);
    expect(numberAt(bytes, 0, 46, end)).toBe(12.5);
    expect(end[0]).toBe(4);
    for (const text of [
      '',
      ' ',
      '-',
      '.',
      '+.',
      'e5',
      '1e',
      '0x10',
      'Infinity',
      '1e999',
      '1 2',
      '1,5',
      '1_0',
      'NaN',
      '--1',
    ]) {
      expect(numberOf(text, '.'), text).toBeUndefined();
    }
  });
});
