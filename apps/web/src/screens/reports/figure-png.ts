import type { ReportContent } from '@sthene/contract';
import { exportDensity, withDensity } from '../../curve/png.ts';

/** Points of 1/72 inch to pixels at the density of exported pictures. */
const gain = exportDensity / 72;

/** A figure as PNG on white, painted by the browser at 300 dots per inch. Throws where the browser cannot. */
export async function figurePng({ svg, width, height }: ReportContent['figures'][number]): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * gain);
    canvas.height = Math.round(height * gain);
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error('There is no canvas.');
    pen.fillStyle = '#ffffff';
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/png'));
    if (blob === null) throw new Error('The browser could not make the picture.');
    return new Blob([withDensity(new Uint8Array(await blob.arrayBuffer()), exportDensity)], { type: 'image/png' });
  } finally {
    URL.revokeObjectURL(address);
  }
}
