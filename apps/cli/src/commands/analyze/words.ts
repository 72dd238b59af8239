import type { ResultDocument, TrialDocument } from '@sthene/contract';
import { checkFacts, metricFacts, type Reason, reasons } from '@sthene/core';
import { printable } from '../../terminal/terminal.ts';

const jumpHeadline = [
  'jump_height',
  'jump_height_flight_time',
  'rsi_modified',
  'reactive_strength_index',
  'contact_time',
  'drop_height',
  'hop_rsi_best_five',
  'hop_contact_time_best_five',
  'time_to_take_off',
  'flight_time',
  'take_off_velocity',
  'countermovement_depth',
  'propulsion_peak_force_relative',
  'propulsion_peak_power_relative',
  'landing_peak_force_relative',
  'asymmetry_propulsion_impulse',
  'system_weight',
];
const headline = [
  'body_weight',
  'peak_force',
  'peak_force_net',
  'peak_force_relative',
  'force_at_100',
  'force_at_200',
  'rfd_0_100',
  'rfd_0_200',
  'impulse_net_0_200',
  'time_to_peak',
  'asymmetry_at_peak',
];
const verdictWords = { counts: 'counts', 'look-again': 'look again', repeat: 'repeat' } as const;

/** What a person reads: verdict, headline values with their spread, and what the checks found. */
export function documentWords(document: ResultDocument): string {
  return document.recordings
    .flatMap((recording) =>
      recording.trials.map((trial, i) => {
        const title = `${recording.file}${recording.label ? `, ${recording.label}` : ''}${recording.trials.length > 1 ? `, effort ${i + 1} of ${recording.trials.length}` : ''}`;
        return trialWords(printable(title), trial);
      }),
    )
    .join('\n');
}

function trialWords(title: string, trial: TrialDocument): string {
  const lines = [
    `${title}: ${verdictWords[trial.verdict]}`,
    `  ${trial.test}, method ${printable(trial.method.name)} ${trial.method.version} (${trial.method.sha256.slice(0, 12)})`,
  ];
  if (trial.reason)
    return `${[...lines, `  ${reasons[trial.reason as Reason].means}`, `  ${reasons[trial.reason as Reason].next}`].join('\n')}\n`;
  const { baseline, onset, peak } = trial.events;
  if ('start' in baseline) lines.push(`  baseline  ${fixed(baseline.mean_n)}, SD ${baseline.sd_n.toFixed(2)}`);
  lines.push(
    'index' in onset
      ? `  onset     ${onset.time_s.toFixed(3)} s (${onset.rule}, above ${fixed(onset.threshold_n)})`
      : `  onset     none: ${reasons[onset.reason as Reason].means}`,
  );
  if (trial.jump)
    lines.push(
      `  flight    ${trial.jump.take_off.time_s.toFixed(3)} s to ${trial.jump.touchdown.time_s.toFixed(3)} s (${trial.jump.threshold_rule}, under ${fixed(trial.jump.threshold_n)})`,
    );
  else if ('index' in peak) lines.push(`  peak      ${peak.time_s.toFixed(3)} s`);
  lines.push('');
  for (const id of trial.jump ? jumpHeadline : headline) {
    const metric = trial.metrics[id];
    if (metric === undefined) continue;
    const name = (metricFacts.get(id)?.title ?? id).padEnd(28);
    if ('reason' in metric) {
      if (metric.reason !== 'one-side-only')
        lines.push(`  ${name} ${'-'.padStart(10)}  ${reasons[metric.reason as Reason].means}`);
      continue;
    }
    const range = trial.spread[id];
    const spread =
      range && range.max > range.min
        ? `  other ${trial.jump ? '' : 'onset '}rules ${fixed(range.min)} to ${fixed(range.max)}`
        : '';
    lines.push(`  ${name} ${fixed(metric.value).padStart(10)} ${metric.unit.padEnd(5)}${spread}`.trimEnd());
  }
  lines.push('');
  const found = Object.entries(trial.checks).filter(([, check]) => check.status === 'warn' || check.status === 'fail');
  for (const [id, check] of found)
    lines.push(
      `  ${check.status === 'fail' ? 'FAIL' : 'warn'}  ${checkFacts.get(id)?.title ?? id}: ${check.value === undefined ? '' : fixed(check.value)} ${check.unit}, limit ${check.limit === undefined ? '' : fixed(check.limit)}`,
    );
  const passed = Object.values(trial.checks).filter((check) => check.status === 'pass').length;
  const open = Object.values(trial.checks).filter((check) => check.status === 'not-judged').length;
  lines.push(
    `  ${passed} checks passed${found.length ? `, ${found.length} did not` : ''}, ${open} could not be judged from a file`,
  );
  return `${lines.join('\n')}\n`;
}

/** Four or more significant figures for reading; machines get full precision from --json and --csv. */
function fixed(value: number): string {
  const size = Math.abs(value);
  return value.toFixed(size >= 1000 ? 0 : size >= 100 ? 1 : size >= 1 ? 2 : 4);
}
