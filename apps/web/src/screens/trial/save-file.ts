import type { OutFile } from './exports.ts';

/** Hands a file to the browser's own saving. */
export function saveFile({ name, content }: OutFile): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The browser reads the address after this call returns.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
