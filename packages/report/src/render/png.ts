import { initWasm, Resvg } from '@resvg/resvg-wasm';
import { withDensity } from '../image/png.ts';
import type { Figure } from '../model/figure.ts';
import { fontBytes, painterProgram } from '../pdf/fonts.ts';

/** Dots per inch of exported pictures. */
const density = 300;

let ready: Promise<void> | undefined;

/**
 * A figure as PNG on white, at 300 dots per inch, with the font of the pages. Painted by code of no machine's own, so that the same figure is
 * the same bytes everywhere.
 */
export async function pngOf({ svg }: Figure): Promise<Uint8Array> {
  ready ??= initWasm(new Uint8Array(painterProgram()));
  await ready;
  const { plain, bold } = fontBytes();
  const painter = new Resvg(svg, {
    background: '#ffffff',
    // The SVG counts in points of 1/72 inch.
    fitTo: { mode: 'zoom', value: density / 72 },
    font: {
      fontBuffers: [new Uint8Array(plain), new Uint8Array(bold)],
      defaultFontFamily: 'DejaVu Sans Condensed',
      loadSystemFonts: false,
    },
  });
  const painted = painter.render();
  try {
    return withDensity(painted.asPng(), density);
  } finally {
    painted.free();
    painter.free();
  }
}
