import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding, Row } from '../benchmark.ts';
import { cellCount, cellRate, cellSeconds, cells } from '../cells.ts';
import { runNode, runPython } from '../child.ts';
import { megabytes, speed } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Times {
  readonly writing: number;
  readonly reading: number;
}
interface Ours extends Times {
  readonly size: number;
  readonly difference: number;
}
interface ParquetTimes extends Ours {
  readonly plainWriting: number;
  readonly plainReading: number;
  readonly textSize: number;
}

/** C3D and Parquet beside the barest way to keep the same numbers. */
export const binaryFiles: Benchmark = {
  id: 'd',
  page: 'files',
  title: 'C3D and Parquet',
  compared:
    `A recording of ${cellSeconds} s at ${cellRate / 1000} kHz with ${cellCount} channels, written to a file and read back to one array a channel; ` +
    'speed counts 4 bytes a value for C3D and 8 for Parquet. Beside C3D stand the same 32-bit floats without any format, by numpy ' +
    '(`tofile`, `fromfile`, turned to one array a channel); beside Parquet the same 64-bit arrays without any format, by node. Both are ' +
    'floors, not formats: they keep no names, units or rate. No other reader of C3D or Parquet was installed to compare with.',
  run,
};

async function run({ quick, folder, python }: Bench): Promise<Finding> {
  mkdirSync(folder, { recursive: true });
  const columns = cells();
  const values = columns.length * (columns[0]?.length ?? 0);
  const samples = join(folder, 'cells.f64');
  const all = new Float64Array(values);
  columns.forEach((column, c) => {
    all.set(column, c * column.length);
  });
  writeFileSync(samples, new Uint8Array(all.buffer));
  const repeats = quick ? 3 : 7;
  const rounds = quick ? 2 : 3;
  const at = (name: string) => [samples, join(folder, name), cellCount];
  const noPython = 'missing' in python ? python.missing : undefined;
  const runs = await alternate(rounds, {
    c3d: () => runNode<Ours>('c3d', [...at('cells.c3d'), cellRate, repeats]),
    floats: async () =>
      'missing' in python
        ? undefined
        : (await runPython<Times>(python.path, 'floats', [...at('cells.f32'), repeats])).said,
    parquet: () => runNode<ParquetTimes>('parquet', [...at('cells.parquet'), cellRate, repeats]),
  });
  const c3d = runs.c3d.map(({ said }) => said);
  const parquet = runs.parquet.map(({ said }) => said);
  const floats = runs.floats.flatMap((found) => (found === undefined ? [] : [found]));
  const rows: Row[] = (['writing', 'reading'] as const).map((act) => {
    const ms = median(c3d.map((one) => one[act]));
    const floor = floats.length === 0 ? undefined : median(floats.map((one) => one[act]));
    return compared(`C3D, ${act}`, values * 4, ms, floor, noPython);
  });
  for (const [act, plain] of [
    ['writing', 'plainWriting'],
    ['reading', 'plainReading'],
  ] as const) {
    const ms = median(parquet.map((one) => one[act]));
    rows.push(compared(`Parquet, ${act}`, values * 8, ms, median(parquet.map((one) => one[plain]))));
  }
  const [oneC3d] = c3d;
  const [oneParquet] = parquet;
  if (!oneC3d || !oneParquet) throw new Error('Nothing was run.');
  if (oneParquet.difference !== 0) throw new Error('Parquet did not return the same bits.');
  rows.push({
    what: 'Parquet, size of the file',
    ours: megabytes(oneParquet.size),
    instead: `${megabytes(oneParquet.textSize)} as CSV`,
    ratio: `${(oneParquet.size / oneParquet.textSize).toFixed(2)} of the size`,
  });
  return {
    ok: true,
    report: {
      rows,
      notes: [
        `Parquet returned every value bit for bit; C3D, whose numbers have 32 bits, within ${oneC3d.difference.toExponential(1)} N. As bare 64-bit numbers the recording has ${megabytes(values * 8)}; the C3D file has ${megabytes(oneC3d.size)}.`,
      ],
    },
  };
}

function compared(what: string, bytes: number, ms: number, floor: number | undefined, missing?: string): Row {
  return {
    what,
    ours: speed(bytes, ms),
    instead: floor === undefined ? `skipped: ${missing}` : speed(bytes, floor),
    ratio: floor === undefined ? '' : `${(floor / ms).toFixed(2)} of the speed`,
  };
}
