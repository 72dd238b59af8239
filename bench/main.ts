import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { benchmarks } from './benchmarks/index.ts';
import { buildPackages } from './build.ts';
import { machineFacts } from './machine.ts';
import { type Options, optionsFrom, usage } from './options.ts';
import { benchPage } from './page.ts';
import { findPython } from './python.ts';
import { asText, misses, type Result } from './table.ts';

const args = process.argv.slice(2);
const say = (words: string): void => void process.stderr.write(`${words}\n`);

if (args.includes('--help')) process.stdout.write(usage);
else {
  const options = optionsFrom(
    args,
    benchmarks.map(({ id }) => id),
  );
  if ('problem' in options) {
    process.stderr.write(`${options.problem}\n\n${usage}`);
    process.exitCode = 2;
  } else await measure(options);
}

async function measure(options: Options): Promise<void> {
  const { quick, textBytes } = options;
  const python = findPython();
  const chosen = benchmarks.filter(({ id }) => options.only.includes(id));
  say('building ...');
  buildPackages();
  const folder = mkdtempSync(join(tmpdir(), 'sthene-bench-'));
  const results: Result[] = [];
  const failures: string[] = [];
  try {
    for (const benchmark of chosen) {
      const began = performance.now();
      const own = join(folder, benchmark.id);
      try {
        const finding = await benchmark.run({ quick, textBytes, python, folder: own });
        results.push({ benchmark, finding });
      } catch (error) {
        failures.push(`${benchmark.id}. ${benchmark.title}: ${(error as Error).stack}`);
      }
      rmSync(own, { recursive: true, force: true });
      say(`${benchmark.id}. ${benchmark.title}: ${((performance.now() - began) / 1000).toFixed(0)} s`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  const facts = machineFacts(python);
  const lines = [asText(results), '', ...misses(results).map((sentence) => `missed: ${sentence}`)];
  lines.push(...facts.map(([name, value]) => `${name}: ${value}`), '');
  process.stdout.write(lines.join('\n'));
  if (failures.length > 0) {
    process.stderr.write(`\n${failures.join('\n')}\n`);
    process.exitCode = 1;
  } else if (options.docs) {
    const pages = fileURLToPath(new URL('../docs/reference/', import.meta.url));
    mkdirSync(pages, { recursive: true });
    const command = ['npm run bench', ...(args.length > 0 ? ['--', ...args] : [])].join(' ');
    const date = new Date().toISOString().slice(0, 10);
    writeFileSync(join(pages, 'bench.md'), benchPage(results, { command, date, quick, facts }));
  }
}
