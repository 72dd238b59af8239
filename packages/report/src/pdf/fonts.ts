import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/**
 * The font of every page, embedded so that a page looks the same everywhere: DejaVu Sans Condensed, which has the signs of the trade
 * (triangles, superscripts, a true minus). Its licence allows embedding.
 */
const require = createRequire(import.meta.url);
const files = { plain: 'DejaVuSansCondensed', bold: 'DejaVuSansCondensed-Bold' } as const;

export type FontName = keyof typeof files;
export type Each<T> = Readonly<Record<FontName, T>>;

let bytes: Each<Buffer> | undefined;

/** The files, read when they are first needed. */
export function fontBytes(): Each<Buffer> {
  const read = (name: string) => readFileSync(require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
  bytes ??= { plain: read(files.plain), bold: read(files.bold) };
  return bytes;
}

/** The program that paints SVG, as it came with its package. */
export const painterProgram = (): Buffer => readFileSync(require.resolve('@resvg/resvg-wasm/index_bg.wasm'));
