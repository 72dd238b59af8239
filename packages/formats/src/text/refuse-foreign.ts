import type { FormatError } from '../format-error.ts';
import { quoteFound, textError } from './errors.ts';

/** Refuses what is visibly no text, with what it is where that is known. */
export function refuseForeign(head: Uint8Array, wide: boolean): FormatError | undefined {
  const starts = (...bytes: number[]) => bytes.every((byte, i) => head[i] === byte);
  if (starts(0x50, 0x4b, 3, 4) || starts(0x50, 0x4b, 5, 6)) {
    const workbook = new TextDecoder('latin1').decode(head.subarray(0, 4096)).includes('[Content_Types].xml');
    const what = workbook ? 'This is a workbook of a spreadsheet program (a zip archive)' : 'This is a zip archive';
    return textError('text-is-archive', `${what}, not a text file, whatever its name says.`, {
      found: 'PK',
      at: { byte: 0 },
    });
  }
  if (starts(0x1f, 0x8b)) {
    return textError('text-is-archive', 'This is a gzip archive, not a text file.', {
      found: '1f 8b',
      at: { byte: 0 },
    });
  }
  if (starts(0xd0, 0xcf, 0x11, 0xe0)) {
    return textError('text-is-archive', 'This is an old workbook of a spreadsheet program, not a text file.', {
      found: 'd0 cf 11 e0',
      at: { byte: 0 },
    });
  }
  if (wide) return undefined;
  const first = new TextDecoder('latin1').decode(head.subarray(0, 200)).replace(/^ï»¿/, '').trimStart();
  const markup = /^(?:\{|\[\s*[[{"\d])/.test(first)
    ? 'JSON'
    : /^<(?:\?xml|!doctype|html|svg)/i.test(first)
      ? 'XML or HTML'
      : undefined;
  if (markup !== undefined) {
    return textError('text-not-text', `This looks like ${markup}, not like a table of numbers.`, {
      expected: 'one row of numbers per sample',
      found: quoteFound(first.slice(0, 40)),
      at: { row: 1 },
    });
  }
  let odd = 0;
  let at = -1;
  for (let i = 0; i < head.length; i++) {
    const byte = head[i]!;
    if (byte < 9 || (byte > 13 && byte < 32 && byte !== 26 && byte !== 27)) {
      if (at < 0) at = i;
      odd += byte === 0 ? 4 : 1;
    }
  }
  if (odd * 200 <= head.length && odd < 64) return undefined;
  return textError('text-not-text', 'The file holds binary data, not text.', {
    expected: 'lines of text',
    found: `byte ${head[at]} at offset ${at}`,
    at: { byte: at },
  });
}
