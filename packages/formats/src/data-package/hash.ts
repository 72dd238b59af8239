import { fault } from './errors.ts';

/** Whether this environment can hash: browsers offer it to secure pages only. */
export const canHash = (): boolean => globalThis.crypto?.subtle !== undefined;

/** `sha256:` and the hexadecimal digest, as the standard writes hashes. */
export async function sha256Of(bytes: Uint8Array): Promise<string> {
  if (!canHash()) {
    const next = 'Open the page over https or on this machine, or let the station write the package.';
    throw fault('data-package-no-hashing', 'This page may not compute SHA-256 hashes.', next);
  }
  const digest = new Uint8Array(await globalThis.crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>));
  return `sha256:${Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
