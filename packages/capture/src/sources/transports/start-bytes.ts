import { hexBytes } from '../description/reader.ts';

/** Bytes to send once a link stands; undefined for none. */
export const startBytesOf = (hex: string | undefined): Uint8Array | undefined =>
  hex === undefined ? undefined : hexBytes(hex);
