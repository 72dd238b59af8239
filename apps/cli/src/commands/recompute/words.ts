import type { ComparedMetric, FailedTrials, Flips, Recomputation } from '@sthene/contract';
import { printable } from '../../terminal/terminal.ts';

/** "120 of 496 trials, 2 not judged, 14 a second" */
export function progressWords({ trials, done, failed, rate }: Recomputation): string {
  const pace = rate === undefined ? '' : `, ${rate.toFixed(rate < 10 ? 1 : 0)} a second`;
  return `${done} of ${trials} trials${failed === 0 ? '' : `, ${failed} not judged`}${pace}`;
}

export type Report = Omit<Recomputation, 'state'> & {
  readonly state: string;
  readonly metrics: readonly ComparedMetric[];
  readonly flips: Flips;
  readonly failures: FailedTrials;
};

/** What a run found, as text for a terminal. */
export function reportText(run: Report): string {
  const changed = run.flips.counted.filter(({ from, to }) => from !== to);
  const failed = run.failures.rows.map(
    ({ trial, person, at, words }) => `  ${trial}  ${printable(person.code)} ${at.slice(0, 10)}  ${printable(words)}\n`,
  );
  return [
    `${run.method.name}, version ${run.method.version}, less the results in force; maximal efforts that count by either\n`,
    `${run.done} trials judged${run.failed === 0 ? '' : `, ${run.failed} could not be`}; the run is ${run.state} (${run.id})\n`,
    `${'metric'.padEnd(30)}${'n'.padStart(6)}${'difference'.padStart(13)}${'from'.padStart(12)}${'to'.padStart(12)}\n`,
    ...run.metrics.map(metricLine),
    'Differences of forces and rates are in per cent (compared in logs), others in their unit; from and to are the limits of\nagreement of single trials.\n',
    changed.length === 0
      ? 'No verdict changes.\n'
      : `Verdicts that change: ${changed.map(({ from, to, trials }) => `${trials} from ${from} to ${to}`).join(', ')}.\n`,
    ...(failed.length === 0
      ? []
      : [`Not judged${run.failures.next === undefined ? '' : ', the first of them'}:\n`, ...failed]),
  ].join('');
}

function metricLine({ id, n, same, study, scale, unit }: ComparedMetric): string {
  const head = `${id.padEnd(30)}${String(n).padStart(6)}`;
  if (same) return `${head}${'the same'.padStart(13)}\n`;
  const limits = study?.limits;
  if (limits === undefined || !limits.ok) return `${head}${'-'.padStart(13)}\n`;
  const { bias, lower, upper } = limits.value;
  const said = (value: number) => (scale === 'log' ? percent(value) : value).toPrecision(3).padStart(12);
  return `${head} ${said(bias.value)}${said(lower.value)}${said(upper.value)}  ${scale === 'log' ? '%' : unit}\n`;
}

/** A difference of 100 ln x as per cent of the first value. */
const percent = (difference: number): number => 100 * (Math.exp(difference / 100) - 1);
