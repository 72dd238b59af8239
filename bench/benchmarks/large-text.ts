import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Bench, Benchmark, Finding } from '../benchmark.ts';
import { runNode } from '../child.ts';
import { atLeast, atMost } from '../goal.ts';
import { writeLargeText } from '../large-text.ts';
import { megabytes, speed } from '../numbers.ts';
import { alternate, median } from '../rounds.ts';

interface Scan {
  readonly work: number;
  readonly rows: number;
  readonly columns: number;
  readonly memory: number;
}
interface Floor {
  readonly work: number;
  readonly lines: number;
  readonly memory: number;
}

/** A text file too large for memory, against a loop that only looks at its bytes. */
export const largeText: Benchmark = {
  id: 'c',
  page: 'files',
  title: 'A large text file in constant memory',
  compared:
    'One file with a time column and eight forces, read through `scanText` with every number parsed and handed on, each in a ' +
    'process of its own. The other side is the floor of the same runtime: a loop that reads the same pieces, sums the bytes and ' +
    'counts the lines, and parses nothing. The file lies in the page cache on both sides. Memory is the largest resident size of ' +
    'the process.',
  run,
};

async function run({ quick, folder, textBytes }: Bench): Promise<Finding> {
  mkdirSync(folder, { recursive: true });
  const path = join(folder, 'large.csv');
  try {
    const file = writeLargeText(path, textBytes);
    const runs = await alternate(quick ? 3 : 5, {
      floor: () => runNode<Floor>('sum-bytes', [path]),
      scan: () => runNode<Scan>('scan-text', [path]),
    });
    const [scan] = runs.scan;
    const [floor] = runs.floor;
    if (!scan || !floor) throw new Error('Nothing was run.');
    if (scan.said.rows !== file.rows || floor.said.lines !== file.rows + 1)
      throw new Error(`The file has ${file.rows} rows; ${scan.said.rows} were scanned, ${floor.said.lines} counted.`);
    const ms = median(runs.scan.map(({ said }) => said.work));
    const floorMs = median(runs.floor.map(({ said }) => said.work));
    const memory = Math.max(...runs.scan.map(({ said }) => said.memory));
    const floorMemory = Math.max(...runs.floor.map(({ said }) => said.memory));
    const ratio = floorMs / ms;
    const numbers = (file.rows * scan.said.columns) / ms / 1000;
    return {
      ok: true,
      report: {
        rows: [
          {
            what: `${megabytes(file.bytes)}, ${scan.said.columns} columns`,
            ours: speed(file.bytes, ms),
            instead: speed(file.bytes, floorMs),
            ratio: `${ratio.toFixed(2)} of the speed`,
            goal: atLeast(0.5, ratio, 'at least half'),
            because: `Each byte passes the parser of numbers: ${numbers.toFixed(1)} million numbers a second, where the loop only adds bytes.`,
          },
          {
            what: 'largest memory',
            ours: megabytes(memory),
            instead: megabytes(floorMemory),
            ratio: '',
            goal: atMost(200e6, memory, 'under 200 MB'),
            because: `The empty loop takes ${megabytes(floorMemory)} by itself.`,
          },
        ],
        notes: [`All ${file.rows} rows arrived in each of the ${runs.scan.length} runs.`],
      },
    };
  } finally {
    rmSync(path, { force: true });
  }
}
