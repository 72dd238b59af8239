import jsQR from 'jsqr';
import { describe, expect, it } from 'vitest';
import { qrPath } from './qr-path.ts';

/** Paints a path of unit squares with `scale` pixels a module, dark on light. */
function painted(text: string, scale: number) {
  const { size, path } = qrPath(text);
  const width = size * scale;
  const pixels = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)h1v1h-1z/g))
    for (let dy = 0; dy < scale; dy++)
      for (let dx = 0; dx < scale; dx++)
        pixels.fill(
          0,
          ((Number(y) * scale + dy) * width + Number(x) * scale + dx) * 4,
          ((Number(y) * scale + dy) * width + Number(x) * scale + dx) * 4 + 3,
        );
  return { pixels, width };
}

describe('the code to scan', () => {
  it.each([
    'https://192.168.178.120:7343/pair#K7QPM2XRWD',
    'https://[fd00::2]:7343/pair',
    'https://bench.local:7343/pair#0',
  ])('is read by a decoder that others wrote: %s', (text) => {
    const { pixels, width } = painted(text, 4);
    expect(jsQR(pixels, width, width)?.data).toBe(text);
  });

  it('has a quiet zone of four modules', () => {
    const { size, path } = qrPath('https://192.168.178.120:7343/pair');
    for (const [, x, y] of path.matchAll(/M(\d+) (\d+)/g))
      for (const at of [Number(x), Number(y)]) {
        expect(at).toBeGreaterThanOrEqual(4);
        expect(at).toBeLessThan(size - 4);
      }
  });
});
