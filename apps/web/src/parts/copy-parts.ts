/** Forms of one thing by their media type. */
export interface CopiedParts {
  readonly 'text/html': string;
  /** Tab-separated, for spreadsheets and plain texts. */
  readonly 'text/plain': string;
}

/** Puts several forms of one thing on the clipboard at once. Throws where the browser refuses. */
export async function copyParts(parts: CopiedParts): Promise<void> {
  if (navigator.clipboard && 'write' in navigator.clipboard) {
    const items = Object.fromEntries(Object.entries(parts).map(([type, text]) => [type, new Blob([text], { type })]));
    await navigator.clipboard.write([new ClipboardItem(items)]);
    return;
  }
  // Without a secure address only the copy event is left; it can carry both forms too.
  const fill = (event: ClipboardEvent) => {
    for (const [type, text] of Object.entries(parts)) event.clipboardData?.setData(type, text);
    event.preventDefault();
  };
  document.addEventListener('copy', fill, { once: true });
  const done = document.execCommand('copy');
  document.removeEventListener('copy', fill);
  if (!done) throw new Error('The clipboard was refused.');
}
