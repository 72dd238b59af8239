import zlib from 'node:zlib';
import { zlibSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../src/image/png.ts';
import { logoLimit, pdfOf, readLogo } from '../src/index.ts';
import { page } from './documents.ts';

/** A PNG of one grey, or of one clear colour with transparency; lengths and CRCs as W3C PNG, section 5.3 and annex D, ask. */
function png(width: number, height: number, kind: 'grey' | 'clear', drawn = height): Uint8Array {
  const chunk = (type: string, data: Uint8Array) => {
    const bytes = new Uint8Array(12 + data.length);
    const view = new DataView(bytes.buffer);
    view.setUint32(0, data.length);
    bytes.set(new TextEncoder().encode(type), 4);
    bytes.set(data, 8);
    view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
    return bytes;
  };
  const head = new Uint8Array(13);
  new DataView(head.buffer).setUint32(0, width);
  new DataView(head.buffer).setUint32(4, height);
  head.set([8, kind === 'grey' ? 0 : 6, 0, 0, 0], 8);
  const line = width * (kind === 'grey' ? 1 : 4) + 1;
  const lines = new Uint8Array(drawn * line).map((_, i) => (i % line === 0 ? 0 : (i * 7) % 90));
  const parts = [
    Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
    chunk('IHDR', head),
    chunk('IDAT', zlibSync(lines)),
    chunk('IEND', new Uint8Array()),
  ];
  return new Uint8Array(Buffer.concat(parts));
}

const grey = (width: number, height: number) => png(width, height, 'grey');

/** Start, frame header of 120 x 80, end: enough to be measured. */
const jpeg = Uint8Array.of(
  ...[0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, 0],
  ...[0xff, 0xc0, 0, 11, 8, 0, 80, 0, 120, 1, 1, 0x11, 0],
  ...[0xff, 0xd9],
);

describe('a logo', () => {
  // CRC catalogue of Greg Cook: CRC-32/ISO-HDLC, check value of the digits 1 to 9 (from memory).
  it('is checked by the usual CRC-32', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  it('is a PNG or a JPEG by its bytes, with its size', () => {
    expect(readLogo(grey(40, 20))).toMatchObject({ ok: true, logo: { mediaType: 'image/png', width: 40, height: 20 } });
    expect(readLogo(jpeg)).toMatchObject({ ok: true, logo: { mediaType: 'image/jpeg', width: 120, height: 80 } });
  });

  it('is refused when it is something else, cut off or too large', () => {
    const svg = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
    for (const bytes of [svg, grey(40, 20).subarray(0, 60), jpeg.subarray(0, 12), new Uint8Array()])
      expect(readLogo(bytes)).toEqual({ ok: false, reason: 'logo-not-an-image' });
    expect(readLogo(new Uint8Array(logoLimit + 1))).toEqual({ ok: false, reason: 'logo-too-large' });
    // A pixel turned over: the checksum tells. Then pixels missing although every checksum is right.
    const turned = grey(40, 20).map((byte, i) => (i === 45 ? byte ^ 1 : byte));
    expect(readLogo(turned)).toEqual({ ok: false, reason: 'logo-not-an-image' });
    const short = png(40, 20, 'grey', 19);
    expect(readLogo(short)).toEqual({ ok: false, reason: 'logo-not-an-image' });
    expect(readLogo(grey(2001, 1))).toEqual({ ok: false, reason: 'logo-too-many-pixels' });
  });

  it.each(['grey', 'clear'] as const)(
    '%s stands on the page, in the same bytes whatever zlib this Node has',
    async (kind) => {
      const found = readLogo(png(40, 20, kind));
      if (!found.ok) throw new Error(found.reason);
      const report = page(undefined, { lab: { name: 'Fernwater', logo: found.logo } });
      const bytes = await pdfOf(report, 'A4');
      expect(Buffer.from(bytes).toString('latin1')).toContain('/Subtype /Image');
      const own = zlib.deflateSync;
      try {
        // As another version might do it.
        zlib.deflateSync = ((data: Uint8Array) => own(data, { level: 1 })) as typeof own;
        expect(Buffer.from(await pdfOf(report, 'A4')).equals(Buffer.from(bytes))).toBe(true);
      } finally {
        zlib.deflateSync = own;
      }
    },
  );
});
