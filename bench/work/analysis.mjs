import {
  analyse,
  deriveMethod,
  forcesOf,
  methodRegistry,
  proposeForces,
  protocolRegistry,
  standardGravity,
} from '@sthene/core';

const protocol = protocolRegistry.get('imtp');

/** The built-in method with the onset at five standard deviations; every metric, check and onset rule of it. */
export const fullMethod = fiveSdMethod();

/** The same method cut down to the numbers the script of a user gives, without checks. */
export function shortMethod() {
  const ids = Object.keys(fullMethod.metrics).filter((id) => scriptMetrics.test(id));
  return { ...fullMethod, metrics: Object.fromEntries(ids.map((id) => [id, fullMethod.metrics[id]])), checks: {} };
}

const scriptMetrics = /^(peak_force|peak_force_net|time_to_peak|force_at_onset|force_at_\d+|rfd_0_\d+|impulse_0_\d+)$/;

function fiveSdMethod() {
  const named = methodRegistry.get('five-sd')?.method ?? methodRegistry.get('standard').method;
  if (named.onset.rule === 'five-sd') return named;
  const derived = deriveMethod(named, { 'onset.rule': 'five-sd' });
  if (!derived.ok) throw new Error(`No method with the onset five-sd: ${JSON.stringify(derived)}`);
  return derived.method;
}

/** Analyses a recording as the program does: propose the force channels, scale and sum them, analyse. */
export function analyseRecording(recording, method = fullMethod) {
  const { selection } = proposeForces(recording);
  const forces = forcesOf(recording, selection, 'N');
  if (!forces.ok) throw new Error(`The forces have the reason ${forces.reason}.`);
  const { trials } = analyse({
    forces: forces.value,
    protocol,
    method,
    gravity: standardGravity,
    efforts: 'largest',
  });
  return trials[0];
}

/** The numbers of a trial that the script of a user gives, under its names. */
export const numbersOf = (trial) => ({ ...baselineOf(trial), ...valuesOf(trial, (id) => scriptMetrics.test(id)) });

/** Every number of a trial; `METRIC@RULE` for a metric under another onset rule. */
export function everyNumberOf(trial) {
  const numbers = { ...baselineOf(trial), ...valuesOf(trial, () => true) };
  for (const [id, { by }] of Object.entries(trial.spread))
    for (const [rule, value] of Object.entries(by)) numbers[`${id}@${rule}`] = value;
  return numbers;
}

function baselineOf({ events, onset, reason }) {
  if (events === undefined || !events.baseline.ok || !onset.ok)
    throw new Error(`A pull was not found: ${reason ?? (onset.ok ? 'no-quiet-window' : onset.reason)}.`);
  const { mean, sd } = events.baseline.value;
  return { baseline_mean: mean, baseline_sd: sd, onset: onset.value.index };
}

function valuesOf({ metrics }, wanted) {
  const given = Object.entries(metrics).filter(([id, measured]) => wanted(id) && 'value' in measured);
  return Object.fromEntries(given.map(([id, measured]) => [id, measured.value]));
}

/** How much one analysis gives. */
export const amountOf = (trial) => ({
  metrics: Object.keys(trial.metrics).length,
  checks: Object.keys(trial.checks).length,
  onsetRules: Object.keys(trial.onsets).length,
  spread: Object.keys(trial.spread).length,
});
