import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create } from 'fontkit';

/**
 * The font of every page, embedded so that a page looks the same everywhere: DejaVu Sans Condensed, which has the signs of the trade
 * (triangles, superscripts, a true minus). Its licence allows embedding.
 */
const require = createRequire(import.meta.url);
const read = (name: string): object => create(readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`)));

let kept: Readonly<Record<FontName, object>> | undefined;

export type FontName = 'plain' | 'bold';

/** Read and taken apart once, when the first page is made; each document takes the signs it needs from them. */
export function fonts(): Readonly<Record<FontName, object>> {
  kept ??= { plain: read('DejaVuSansCondensed'), bold: read('DejaVuSansCondensed-Bold') };
  return kept;
}
