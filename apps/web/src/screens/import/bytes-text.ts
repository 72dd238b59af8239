import { numberText } from '../../number/format.ts';

/** A file's size for people: kB and MB of 1000, as file managers and disks count. */
export function bytesText(bytes: number): string {
  if (bytes < 1000) return `${bytes}\u00a0B`;
  if (bytes < 1e6) return `${numberText(bytes / 1000, bytes < 1e4 ? 1 : 0)}\u00a0kB`;
  return `${numberText(bytes / 1e6, bytes < 1e7 ? 1 : 0)}\u00a0MB`;
}
