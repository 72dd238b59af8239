import { unzlibSync } from 'fflate';

export interface PngSize {
  readonly width: number;
  readonly height: number;
}

const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** Values of a pixel by colour type. */
const channels: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

/** Whether bytes begin as a PNG does. */
export const isPng = (bytes: Uint8Array): boolean => signature.every((byte, i) => bytes[i] === byte);

/** Width and height as the first chunk says them, before anything is unpacked; undefined where there is no such chunk. */
export function pngSize(bytes: Uint8Array): PngSize | undefined {
  if (bytes.length < 33 || nameAt(bytes, 12) !== 'IHDR') return undefined;
  const view = viewOf(bytes);
  return { width: view.getUint32(16), height: view.getUint32(20) };
}

/**
 * Whether a PNG is whole and of a kind that is printed as it is: at most 8 bits a channel, not interlaced, every chunk with its checksum, as
 * many pixels as it says. A page made of another one would fail when it is handed out.
 *
 * Source: W3C Portable Network Graphics, sections 5.3, 10.1, 11.2.1, 11.2.2 and annex D.
 */
export function isWholePng(bytes: Uint8Array): boolean {
  const size = pngSize(bytes);
  if (size === undefined) return false;
  const [depth = 0, colour = 0, , , interlaced] = bytes.subarray(24, 29);
  const perPixel = channels[colour];
  if (perPixel === undefined || depth > 8 || (depth < 8 && perPixel > 1) || interlaced !== 0) return false;
  const data = pixelData(bytes, colour === 3);
  if (data === undefined) return false;
  const line = 1 + Math.ceil((size.width * perPixel * depth) / 8);
  try {
    return unzlibSync(data).length === line * size.height;
  } catch {
    return false;
  }
}

/** The packed pixels of all chunks; undefined where a chunk is broken, or the last one or a needed palette is missing. */
function pixelData(bytes: Uint8Array, needsPalette: boolean): Uint8Array | undefined {
  const view = viewOf(bytes);
  const pieces: Uint8Array[] = [];
  let palette = !needsPalette;
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const end = at + 8 + length;
    if (end + 4 > bytes.length || crc32(bytes.subarray(at + 4, end)) !== view.getUint32(end)) return undefined;
    const name = nameAt(bytes, at + 4);
    if (name === 'PLTE') palette = true;
    if (name === 'IDAT') pieces.push(bytes.subarray(at + 8, end));
    if (name === 'IEND') return palette && pieces.length > 0 ? new Uint8Array(Buffer.concat(pieces)) : undefined;
    at = end + 4;
  }
  return undefined;
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
const nameAt = (bytes: Uint8Array, at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));

/** CRC-32 as PNG uses it (annex D: reflected polynomial 0xEDB88320). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/** With the density said in its own chunk, behind the header (section 11.3.4.3, pHYs: pixels in a metre). */
export function withDensity(bytes: Uint8Array, dotsPerInch: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = viewOf(chunk);
  const perMetre = Math.round(dotsPerInch / 0.0254);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode('pHYs'), 4);
  view.setUint32(8, perMetre);
  view.setUint32(12, perMetre);
  chunk[16] = 1;
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  // Signature and header: 8 and 25 bytes.
  const after = 33;
  const out = new Uint8Array(bytes.length + chunk.length);
  out.set(bytes.subarray(0, after));
  out.set(chunk, after);
  out.set(bytes.subarray(after), after + chunk.length);
  return out;
}
