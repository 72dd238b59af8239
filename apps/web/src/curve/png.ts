import { type Pen, paintCanvas } from './paint-canvas.ts';
import type { Palette, Scene } from './scene.ts';

/** Dots per inch of exported pictures. */
export const exportDensity = 300;

/** Pixels of a width in millimetres at the export density. */
export const pixelsOf = (millimetres: number) => Math.round((millimetres / 25.4) * exportDensity);

/** Paints a scene at a printed width and returns a PNG that carries its density. */
export async function scenePng(scene: Scene, palette: Palette, millimetres: number): Promise<Blob> {
  const width = pixelsOf(millimetres);
  const gain = width / scene.width;
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = Math.round(scene.height * gain);
  const pen = canvas.getContext('2d') as Pen;
  pen.scale(gain, gain);
  paintCanvas(pen, scene, palette);
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
  if (!blob) throw new Error('The browser could not make the picture.');
  return new Blob([withDensity(new Uint8Array(await blob.arrayBuffer()), exportDensity)], { type: 'image/png' });
}

/**
 * Inserts the pHYs chunk (PNG specification, third edition, section 11.3.4.3) after the header chunk.
 *
 * @param png bytes of a PNG file
 * @param density dots per inch
 */
export function withDensity(png: Uint8Array<ArrayBuffer>, density: number): Uint8Array<ArrayBuffer> {
  const chunk = new Uint8Array(21);
  const fields = new DataView(chunk.buffer);
  const perMetre = Math.round(density / 0.0254);
  fields.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4);
  fields.setUint32(8, perMetre);
  fields.setUint32(12, perMetre);
  chunk[16] = 1;
  fields.setUint32(17, crc32(chunk.subarray(4, 17)));
  // Signature (8 bytes), then IHDR: length (4), name (4), data (13), checksum (4).
  const after = 33;
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, after), 0);
  out.set(chunk, after);
  out.set(png.subarray(after), after + chunk.length);
  return out;
}

/** CRC-32 as PNG uses it (ISO 3309, reflected polynomial 0xEDB88320). */
export function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
