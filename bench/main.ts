import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { PageId } from './benchmark.ts';
import { benchmarks } from './benchmarks/index.ts';
import { buildPackages } from './build.ts';
import { machineFacts } from './machine.ts';
import { type Options, optionsFrom, usage } from './options.ts';
import { benchPage, pages } from './page.ts';
import { findPython } from './python.ts';
import { asText, misses, type Result } from './table.ts';

const args = process.argv.slice(2);
const say = (words: string): void => void process.stderr.write(`${words}\n`);

if (args.includes('--help')) process.stdout.write(usage);
else {
  const options = optionsFrom(args, benchmarks);
  if ('problem' in options) {
    process.stderr.write(`${options.problem}\n\n${usage}`);
    process.exitCode = 2;
  } else await measure(options);
}

async function measure(options: Options): Promise<void> {
  const { quick, textBytes, hours, minutes, day, trials } = options;
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
        const finding = await benchmark.run({ quick, textBytes, hours, minutes, day, trials, python, folder: own });
        results.push({ benchmark, finding });
        if (finding.ok) for (const note of finding.report.notes) say(`   ${note}`);
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
    const reference = fileURLToPath(new URL('../docs/reference/', import.meta.url));
    mkdirSync(reference, { recursive: true });
    const command = ['npm run bench', ...(args.length > 0 ? ['--', ...args] : [])].join(' ');
    const date = new Date().toISOString().slice(0, 10);
    for (const page of Object.keys(pages) as PageId[]) {
      const own = results.filter(({ benchmark }) => benchmark.page === page);
      // A page is written whole or not at all.
      if (own.length === 0 || own.length < benchmarks.filter((one) => one.page === page).length) continue;
      writeFileSync(join(reference, pages[page].file), benchPage(page, own, { command, date, quick, facts }));
    }
  }
}
