import { create } from 'fontkit';
import { type Each, fontBytes } from './fonts.ts';

let parsed: Each<object> | undefined;

/** Taken apart once, when the first page is made; each document takes the signs it needs from them. */
export function fonts(): Each<object> {
  const { plain, bold } = fontBytes();
  parsed ??= { plain: create(plain), bold: create(bold) };
  return parsed;
}
