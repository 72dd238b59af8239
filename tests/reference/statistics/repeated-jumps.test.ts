import { existsSync, readFileSync } from 'node:fs';
import { reliabilityStudy } from '@sthene/core/stats';
import { expect, it } from 'vitest';

const file = new URL('../../../../shared/data/repeated-jumps/cycling-jumps.csv', import.meta.url);
const withShared = it.skipIf(!existsSync(file));
if (!existsSync(file)) console.warn('skipped: the repeated jumps of others are not at ../shared/data');

/** Rows of people, columns of occasions, from one line a person and occasion. */
function jumps(metric: string): (number | null)[][] {
  const [head = '', ...lines] = readFileSync(file, 'utf8').trim().split(/\r?\n/u);
  const names = head.split(',').map((name) => name.replaceAll('"', ''));
  const rows = lines.map((line) => line.split(',').map((cell) => cell.replaceAll('"', '')));
  const column = (name: string) => {
    const at = names.indexOf(name);
    if (at < 0) throw new Error(`no column ${name} in ${names.join()}`);
    return at;
  };
  const [person, occasion, value] = [column('subject'), column('timepoint'), column(metric)];
  const occasions = [...new Set(rows.map((row) => row[occasion] as string))];
  return [...new Set(rows.map((row) => row[person]))].map((one) =>
    occasions.map((when) => {
      const found = rows.find((row) => row[person] === one && row[occasion] === when)?.[value];
      return found === undefined || found === 'NA' ? null : Number(found);
    }),
  );
}

// Sylta et al. 2016, as kept in the exscidata package (CC0): facts of the 17 complete people in SOURCE.md beside the file.
withShared('countermovement jumps of cyclists on four occasions', () => {
  const found = reliabilityStudy(jumps('cmj.max'), 'unit');
  if (!found.ok) throw new Error(found.reason);
  const { complete, squares, correlations, error, all } = found.value;
  expect(complete).toBe(17);
  expect(squares.between.mean).toBeCloseTo(39.064, 3);
  expect(squares.occasion.mean).toBeCloseTo(6.186, 3);
  expect(squares.error.mean).toBeCloseTo(1.639, 3);
  for (const [form, value] of [
    ['1,1', 0.83],
    ['2,1', 0.831],
    ['3,1', 0.851],
  ] as const) {
    const one = correlations[form];
    expect(one.ok && one.value.value).toBeCloseTo(value, 3);
  }
  expect(error.value).toBeCloseTo(1.28, 2);
  // All people, by restricted likelihood: near, and never the same by accident of dropping rows.
  expect(all?.ok && Math.abs(all.value.error.value - error.value)).toBeLessThan(0.15);
});
