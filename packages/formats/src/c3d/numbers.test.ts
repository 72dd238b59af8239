import { describe, expect, it } from 'vitest';
import { numberReader, type Processor, processorOf, viewOf } from './numbers.ts';

const hex = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'hex'));
const float = (processor: Processor, text: string): number => numberReader(viewOf(hex(text)), processor).float32(0);

// CD-04 of methods/jumps-and-plates.md section 9.3, from the C3D User Guide's number formats.
const table: [number, string, string, string][] = [
  [1, '0000803f', '3f800000', '80400000'],
  [-1, '000080bf', 'bf800000', '80c00000'],
  [Math.fround(0.1), 'cdcccc3d', '3dcccccd', 'cc3ecdcc'],
  [1000, '00007a44', '447a0000', '7a450000'],
  [0, '00000000', '00000000', '00000000'],
];

describe('C3D numbers', () => {
  it.each(table)('CD-04 reads %f from each processor', (value, intel, mips, dec) => {
    expect(float('intel', intel)).toBe(value);
    expect(float('mips', mips)).toBe(value);
    expect(float('dec', dec)).toBe(value);
  });

  it('reads DEC floats at the ends of their range', () => {
    // Smallest and largest VAX F numbers: 2^-128 (0.5 * 2^-127) and (1 - 2^-24) * 2^127.
    expect(float('dec', '80000000')).toBe(2 ** -128);
    expect(float('dec', 'ff7fffff')).toBe((1 - 2 ** -24) * 2 ** 127);
    expect(float('dec', '00010000')).toBe(2 ** -127);
  });

  it('reads 16-bit integers of each processor', () => {
    expect(numberReader(viewOf(hex('64ff')), 'intel').int16(0)).toBe(-156);
    expect(numberReader(viewOf(hex('64ff')), 'dec').uint16(0)).toBe(0xff64);
    expect(numberReader(viewOf(hex('ff64')), 'mips').int16(0)).toBe(-156);
  });

  it('knows three processors and no others', () => {
    expect([84, 85, 86, 87, 83, 0].map(processorOf)).toEqual(['intel', 'dec', 'mips', null, null, null]);
  });
});
