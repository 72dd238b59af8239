import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/**
 * The font of every page, embedded so that a page looks the same everywhere: DejaVu Sans Condensed, which has the signs of the trade
 * (triangles, superscripts, a true minus). Its licence allows embedding.
 */
const require = createRequire(import.meta.url);
const read = (name: string): Buffer => readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));

let kept: Readonly<Record<FontName, Buffer>> | undefined;

export type FontName = 'plain' | 'bold';

/** Read once, when the first page is made. */
export function fontFiles(): Readonly<Record<FontName, Buffer>> {
  kept ??= { plain: read('DejaVuSansCondensed'), bold: read('DejaVuSansCondensed-Bold') };
  return kept;
}
