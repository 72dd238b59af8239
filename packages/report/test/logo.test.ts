import { zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { logoLimit, pdfOf, readLogo } from '../src/index.ts';
import { page } from './documents.ts';

/** A PNG of one grey; lengths and CRCs as W3C PNG, section 5.3 and annex D, ask. */
export function grey(width: number, height: number): Uint8Array {
  const chunk = (type: string, data: Uint8Array) => {
    const bytes = new Uint8Array(12 + data.length);
    const view = new DataView(bytes.buffer);
    view.setUint32(0, data.length);
    bytes.set(new TextEncoder().encode(type), 4);
    bytes.set(data, 8);
    view.setUint32(8 + data.length, crc(bytes.subarray(4, 8 + data.length)));
    return bytes;
  };
  const head = new Uint8Array(13);
  new DataView(head.buffer).setUint32(0, width);
  new DataView(head.buffer).setUint32(4, height);
  head.set([8, 0, 0, 0, 0], 8);
  const lines = new Uint8Array(height * (width + 1)).map((_, i) => (i % (width + 1) === 0 ? 0 : 90));
  const parts = [
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk('IHDR', head),
    chunk('IDAT', zlibSync(lines)),
    chunk('IEND', new Uint8Array()),
  ];
  return new Uint8Array(Buffer.concat(parts));
}

function crc(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (const byte of bytes) {
    value ^= byte;
    for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  }
  return (value ^ 0xffffffff) >>> 0;
}

/** Start, frame header of 120 x 80, end: enough to be measured. */
const jpeg = Uint8Array.of(
  ...[0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0],
  ...[0xff, 0xc0, 0, 11, 8, 0, 80, 0, 120, 1, 1, 0x11, 0],
  ...[0xff, 0xd9],
);

describe('a logo', () => {
  it('is a PNG or a JPEG by its bytes, with its size', () => {
    expect(readLogo(grey(40, 20))).toMatchObject({ ok: true, logo: { mediaType: 'image/png', width: 40, height: 20 } });
    expect(readLogo(jpeg)).toMatchObject({ ok: true, logo: { mediaType: 'image/jpeg', width: 120, height: 80 } });
  });

  it('is refused when it is something else, cut off or too large', () => {
    const svg = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
    for (const bytes of [svg, grey(40, 20).subarray(0, 60), jpeg.subarray(0, 12), new Uint8Array()])
      expect(readLogo(bytes)).toEqual({ ok: false, reason: 'logo-not-an-image' });
    expect(readLogo(new Uint8Array(logoLimit + 1))).toEqual({ ok: false, reason: 'logo-too-large' });
    expect(readLogo(grey(4001, 1))).toEqual({ ok: false, reason: 'logo-too-many-pixels' });
  });

  it('stands on the page', async () => {
    const found = readLogo(grey(40, 20));
    if (!found.ok) throw new Error(found.reason);
    const report = page(undefined, { lab: { name: 'Fernwater', logo: found.logo } });
    const bytes = Buffer.from(await pdfOf(report, 'A4')).toString('latin1');
    expect(bytes).toContain('/Subtype /Image');
  });
});
