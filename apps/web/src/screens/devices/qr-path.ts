import { encode } from 'uqr';

/** A code to scan as one SVG path: `size` modules wide, with the quiet zone of four modules that readers need (ISO/IEC 18004). */
export function qrPath(text: string): { readonly size: number; readonly path: string } {
  const { data, size } = encode(text, { ecc: 'M', border: 4 });
  let path = '';
  for (const [y, row] of data.entries()) for (const [x, dark] of row.entries()) if (dark) path += `M${x} ${y}h1v1h-1z`;
  return { size, path };
}
