import { describe, expect, it } from 'vitest';
import { crc32, pixelsOf, withDensity } from './png.ts';

describe('png', () => {
  it('computes the published check value of CRC-32', () => {
    // "123456789" gives cbf43926: catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC.
    expect(crc32(new TextEncoder().encode('123456789')).toString(16)).toBe('cbf43926');
  });
  it('puts the density right after the header chunk', () => {
    const header = Uint8Array.from({ length: 40 }, (_, i) => i);
    const out = withDensity(header, 300);
    expect(out.length).toBe(61);
    expect([...out.subarray(0, 33)]).toEqual([...header.subarray(0, 33)]);
    expect(new TextDecoder().decode(out.subarray(37, 41))).toBe('pHYs');
    const view = new DataView(out.buffer);
    expect(view.getUint32(33)).toBe(9);
    // 300 / 0.0254 = 11811.02 pixels a metre.
    expect(view.getUint32(41)).toBe(11811);
    expect(out[49]).toBe(1);
    expect(view.getUint32(50)).toBe(crc32(out.subarray(37, 50)));
    expect([...out.subarray(54)]).toEqual([...header.subarray(33)]);
  });
  it('turns millimetres into pixels at 300 dpi', () => {
    expect(pixelsOf(25.4)).toBe(300);
    expect(pixelsOf(85)).toBe(1004);
  });
});
