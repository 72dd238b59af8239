import { defaultMethod, meanOf, metricFactsOf, sdOf } from '@sthene/core';
import { jumpMethodNamed, methodNamed } from '../../files/method-named.ts';
import { protocolNamed } from '../../files/protocol-named.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { type AnalysedRecording, analyseFile } from '../analyze/analyze-file.ts';
import type { AnalyzeOptions } from '../analyze/options.ts';

interface Row {
  readonly metric: string;
  readonly unit: string;
  readonly n: number;
  readonly mean_first: number;
  readonly mean_difference: number;
  readonly sd_difference?: number;
  readonly largest_difference: number;
}

/** Second minus first, metric by metric, over every trial both methods could measure. */
export async function compareMethods(
  firstName: string,
  secondName: string,
  files: readonly string[],
  options: AnalyzeOptions,
  { terminal }: CommandContext,
) {
  const protocol = protocolNamed(options.test, options.baseline);
  const recipesOf = async (name: string) =>
    protocol.jump === undefined
      ? { method: await methodNamed(name, options.baseline, protocol) }
      : { method: defaultMethod, jumpMethod: jumpMethodNamed(name) };
  const [first, second] = [await recipesOf(firstName), await recipesOf(secondName)];
  const nameOf = (one: typeof first) => ('jumpMethod' in one ? one.jumpMethod : one.method).name;
  const pairs: (readonly [AnalysedRecording, AnalysedRecording])[] = [];
  let failed = 0;
  for (const file of files) {
    try {
      const [a, b] = [
        await analyseFile(file, protocol, first, options),
        await analyseFile(file, protocol, second, options),
      ];
      for (const [i, one] of a.entries()) pairs.push([one, b[i] as AnalysedRecording]);
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      failed += 1;
      terminal.err(`sthene: ${file}: ${error.message} [${error.code}]\n  ${error.next}\n`);
    }
  }
  const rows = metricFactsOf(protocol.id).flatMap((metric) => row(metric.id, pairs));
  const flips = pairs
    .flatMap(([a, b]) => a.trials.map((trial, i) => [trial.verdict, b.trials[i]?.verdict] as const))
    .filter(([a, b]) => a !== b).length;
  if (options.json)
    terminal.out(
      `${JSON.stringify({ schema: 'sthene.method-comparison/1', first: nameOf(first), second: nameOf(second), metrics: rows, verdicts_changed: flips }, null, 2)}\n`,
    );
  else {
    terminal.out(
      `${nameOf(second)} minus ${nameOf(first)}\n${'metric'.padEnd(28)}${'n'.padStart(5)}${'mean first'.padStart(14)}${'difference'.padStart(14)}${'SD'.padStart(12)}${'largest'.padStart(14)}\n`,
    );
    for (const one of rows)
      terminal.out(
        `${one.metric.padEnd(28)}${String(one.n).padStart(5)}${one.mean_first.toFixed(2).padStart(14)}${one.mean_difference.toFixed(2).padStart(14)}${(one.sd_difference?.toFixed(2) ?? '-').padStart(12)}${one.largest_difference.toFixed(2).padStart(14)}  ${one.unit}\n`,
      );
    terminal.out(`verdicts that change: ${flips}\n`);
  }
  return failed > 0 ? exitCodes.inputInvalid : exitCodes.done;
}

function row(metric: string, pairs: readonly (readonly [AnalysedRecording, AnalysedRecording])[]): Row[] {
  const firsts: number[] = [];
  const differences: number[] = [];
  let unit = '';
  for (const [a, b] of pairs) {
    a.trials.forEach((trial, i) => {
      const x = trial.metrics[metric];
      const y = b.trials[i]?.metrics[metric];
      if (x === undefined || y === undefined || 'reason' in x || 'reason' in y) return;
      unit = x.unit;
      firsts.push(x.value);
      differences.push(y.value - x.value);
    });
  }
  if (firsts.length === 0) return [];
  const n = firsts.length;
  const spread = Float64Array.from(differences);
  return [
    {
      metric,
      unit,
      n,
      mean_first: meanOf(Float64Array.from(firsts), 0, n),
      mean_difference: meanOf(spread, 0, n),
      ...(n > 1 ? { sd_difference: sdOf(spread, 0, n) } : {}),
      largest_difference: differences.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0),
    },
  ];
}
