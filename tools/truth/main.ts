import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { methodReference } from '@sthene/core';
import { scoredPart, scorePull } from './judge.ts';
import { optionsFrom, usage } from './options.ts';
import { truthPage } from './page.ts';
import { plannedPulls } from './plan.ts';
import { targets } from './score.ts';
import { asText, tablesOf } from './table.ts';

const args = process.argv.slice(2);
if (args.includes('--help')) {
  process.stdout.write(usage);
} else {
  const options = optionsFrom(args);
  if ('problem' in options) {
    process.stderr.write(`${options.problem}\n\n${usage}`);
    process.exitCode = 2;
  } else {
    const method = scoredPart(options.method);
    const pulls = plannedPulls(options).map((planned) => scorePull(planned, method));
    const reached = targets(pulls);
    if (options.json) {
      const reference = methodReference(options.method);
      process.stdout.write(
        `${JSON.stringify({ method: reference, options: { ...options, method: undefined }, targets: reached, pulls })}\n`,
      );
    } else {
      process.stdout.write(`${tablesOf(pulls).map(asText).join('\n')}\n`);
    }
    if (options.docs) {
      const folder = fileURLToPath(new URL('../../docs/reference/', import.meta.url));
      mkdirSync(folder, { recursive: true });
      writeFileSync(`${folder}truth-table.md`, truthPage(pulls, options));
    }
    if (!Object.values(reached).every(({ met }) => met)) process.exitCode = 1;
  }
}
