import { pullOf } from './pulls.ts';

export const cellRate = 2000;
export const cellSeconds = 60;
export const cellCount = 8;

/**
 * A minute at 2 kHz of eight load cells, four under each foot: six pulls of one simulated athlete, each plate's force shared
 * among its four cells. Values have four decimals.
 */
export function cells(seconds = cellSeconds): readonly Float64Array[] {
  const pulls = Array.from({ length: seconds / 10 }, (_, i) =>
    pullOf(700 + i, cellRate, 10, { bodyMass: 75, plateNoise: 1 }),
  );
  const share = [0.22, 0.31, 0.27, 0.2];
  return [...share.map((part) => joined('left', part)), ...share.map((part) => joined('right', part))];

  function joined(side: 'left' | 'right', part: number): Float64Array {
    const all = new Float64Array(seconds * cellRate);
    pulls.forEach((pull, i) => {
      all.set(
        pull[side].map((value) => Math.round(value * part * 10_000) / 10_000),
        i * 10 * cellRate,
      );
    });
    return all;
  }
}

/** The cells as text, named so that the sides are plain. */
export function cellsAsText(columns: readonly Float64Array[]): string {
  const names = columns.map((_, c) => `${c < cellCount / 2 ? 'left' : 'right'} cell ${(c % (cellCount / 2)) + 1} [N]`);
  const lines = [`time_s,${names.join(',')}`];
  const count = columns[0]?.length ?? 0;
  for (let n = 0; n < count; n++) lines.push(`${n / cellRate},${columns.map((column) => column[n]).join(',')}`);
  return `${lines.join('\n')}\n`;
}
