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

/** The numbers of a trial under the names the script of a user gives them. */
export function numbersOf(trial) {
  if (trial.events === undefined || !trial.events.baseline.ok || !trial.onset.ok)
    throw new Error(
      `A pull was not found: ${trial.reason ?? (trial.onset.ok ? 'no-quiet-window' : trial.onset.reason)}.`,
    );
  const numbers = {
    baseline_mean: trial.events.baseline.value.mean,
    baseline_sd: trial.events.baseline.value.sd,
    onset: trial.onset.value.index,
  };
  for (const [id, measured] of Object.entries(trial.metrics)) {
    if (scriptMetrics.test(id) && 'value' in measured) numbers[id] = measured.value;
  }
  return numbers;
}

/** How much one analysis gives. */
export const amountOf = (trial) => ({
  metrics: Object.keys(trial.metrics).length,
  checks: Object.keys(trial.checks).length,
  onsetRules: Object.keys(trial.onsets).length,
  spread: Object.keys(trial.spread).length,
});
