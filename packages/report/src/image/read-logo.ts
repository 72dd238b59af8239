import type { Logo } from '../model/logo.ts';
import { isPng, isWholePng, pngSize } from './png.ts';

/** Largest logo, bytes: it stands in every page that is handed out. */
export const logoLimit = 500_000;

/** Largest side of a logo, pixels. */
export const logoSide = 2_000;

export type LogoOutcome =
  | { readonly ok: true; readonly logo: Logo }
  | { readonly ok: false; readonly reason: 'logo-too-large' | 'logo-not-an-image' | 'logo-too-many-pixels' };

/**
 * Looks at the bytes of a logo: PNG or JPEG by their first bytes and sizes, whatever the file is called; a PNG down to its pixels. SVG is
 * refused: it is a program as much as a picture.
 *
 * Source: W3C Portable Network Graphics; ITU-T T.81 (JPEG), annex B.
 */
export function readLogo(bytes: Uint8Array): LogoOutcome {
  if (bytes.length > logoLimit) return { ok: false, reason: 'logo-too-large' };
  const png = isPng(bytes);
  const size = png ? pngSize(bytes) : jpegSize(bytes);
  if (size === undefined || size.width < 1 || size.height < 1) return { ok: false, reason: 'logo-not-an-image' };
  if (Math.max(size.width, size.height) > logoSide) return { ok: false, reason: 'logo-too-many-pixels' };
  if (png && !isWholePng(bytes)) return { ok: false, reason: 'logo-not-an-image' };
  const { width, height } = size;
  return { ok: true, logo: { mediaType: png ? 'image/png' : 'image/jpeg', bytes, width, height } };
}

/** Walks the segments to the frame header. */
function jpegSize(bytes: Uint8Array): { width: number; height: number } | undefined {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8 || bytes.at(-2) !== 0xff || bytes.at(-1) !== 0xd9) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 2; at + 9 < bytes.length; ) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] as number;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return { height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return undefined;
}
