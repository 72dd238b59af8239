import type { Logo } from '../model/logo.ts';

/** Largest logo, bytes: it stands in every page that is handed out. */
export const logoLimit = 500_000;

/** Largest side of a logo, pixels. */
export const logoSide = 4_000;

export type LogoOutcome =
  | { readonly ok: true; readonly logo: Logo }
  | { readonly ok: false; readonly reason: 'logo-too-large' | 'logo-not-an-image' | 'logo-too-many-pixels' };

/**
 * Looks at the bytes of a logo: PNG or JPEG by their first bytes and sizes, whatever the file is called. SVG is refused: it is a program
 * as much as a picture.
 *
 * Source: W3C Portable Network Graphics, section 5.2 and 11.2.1; ITU-T T.81 (JPEG), annex B.
 */
export function readLogo(bytes: Uint8Array): LogoOutcome {
  if (bytes.length > logoLimit) return { ok: false, reason: 'logo-too-large' };
  const size = pngSize(bytes) ?? jpegSize(bytes);
  if (size === undefined || size.width < 1 || size.height < 1) return { ok: false, reason: 'logo-not-an-image' };
  if (Math.max(size.width, size.height) > logoSide) return { ok: false, reason: 'logo-too-many-pixels' };
  return { ok: true, logo: { ...size, bytes } };
}

type Size = Pick<Logo, 'mediaType' | 'width' | 'height'>;
const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

function pngSize(bytes: Uint8Array): Size | undefined {
  if (bytes.length < 45 || signature.some((byte, i) => bytes[i] !== byte)) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (String.fromCharCode(...bytes.subarray(12, 16)) !== 'IHDR') return undefined;
  // A file that was cut off has lost its last chunk.
  if (String.fromCharCode(...bytes.subarray(bytes.length - 8, bytes.length - 4)) !== 'IEND') return undefined;
  return { mediaType: 'image/png', width: view.getUint32(16), height: view.getUint32(20) };
}

/** Walks the segments to the frame header. */
function jpegSize(bytes: Uint8Array): Size | undefined {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8 || bytes.at(-2) !== 0xff || bytes.at(-1) !== 0xd9) return undefined;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 2; at + 9 < bytes.length; ) {
    if (bytes[at] !== 0xff) return undefined;
    const marker = bytes[at + 1] as number;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return { mediaType: 'image/jpeg', height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    at += marker === 0xff ? 1 : 2 + view.getUint16(at + 2);
  }
  return undefined;
}
