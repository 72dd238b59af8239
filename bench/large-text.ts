import { closeSync, openSync, writeSync } from 'node:fs';
import { pullOf } from './pulls.ts';

const rate = 1000;
const channels = 8;
const piece = 2000;

/**
 * Writes one text recording of at least `bytes`, piece by piece: time_s and eight forces of simulated pulls, repeated. Returns
 * rows and bytes.
 */
export function writeLargeText(path: string, bytes: number): { rows: number; bytes: number } {
  const cells = Array.from({ length: channels / 2 }, (_, i) => pullOf(900 + i, rate, 10)).flatMap(({ left, right }) => [
    left,
    right,
  ]);
  const count = 10 * rate;
  const tails = Array.from({ length: count }, (_, n) => `${cells.map((cell) => cell[n]).join(',')}\n`);
  const file = openSync(path, 'w');
  try {
    let written = writeSync(file, `time_s,${cells.map((_, c) => `cell_${c + 1}_n`).join(',')}\n`);
    let rows = 0;
    while (written < bytes) {
      let text = '';
      for (const stop = rows + piece; rows < stop; rows++) text += `${rows / rate},${tails[rows % count]}`;
      written += writeSync(file, text, null, 'latin1');
    }
    return { rows, bytes: written };
  } finally {
    closeSync(file);
  }
}
