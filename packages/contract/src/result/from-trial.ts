import type { AnyMethod, CheckResult, JumpEvents, Measured, Outcome, TrialResult } from '@sthene/core';
import type { TrialDocument } from './document.ts';

/**
 * A trial result as the document prints it: indices and seconds from the first sample of the file, reasons as data, and
 * nothing rounded. `method` is needed to name what a derived method changed.
 */
export function trialDocument(result: TrialResult, method: AnyMethod): TrialDocument {
  const at = (index: number) => ({ index, time_s: index / result.sampleRate });
  const { events, jump } = result;
  const noEvent = { reason: result.reason ?? 'no-effort' };
  return {
    test: result.test,
    method: {
      ...result.method,
      ...(method.derivedFrom
        ? { derived_from: { ...method.derivedFrom, changes: { ...method.derivedFrom.changes } } }
        : {}),
    },
    span: { start: result.span.start, end: result.span.end },
    ...(result.reason ? { reason: result.reason } : {}),
    events: {
      baseline: events
        ? orReason(events.baseline, (one) => ({ start: one.start, end: one.end, mean_n: one.mean, sd_n: one.sd }))
        : jump
          ? orReason(jump.weighing, (one) => ({ start: one.start, end: one.end, mean_n: one.mean, sd_n: one.sd }))
          : noEvent,
      onset: orReason(result.onset, (one) => ({ ...at(one.index), threshold_n: one.threshold, rule: one.rule })),
      peak: events ? at(events.peak.index) : jump?.peakForce ? at(jump.peakForce.index) : jump ? notThere : noEvent,
      end: events ? at(events.end) : jump ? at(jump.endOfLanding ?? jump.touchdown) : noEvent,
    },
    ...(jump ? { jump: jumpDocument(jump, at) } : {}),
    body_weight: orReason(result.bodyWeight, (one) => ({ value: one.value, unit: one.unit, from: one.from })),
    metrics: mapValues(result.metrics, metricDocument),
    checks: mapValues(result.checks, checkDocument),
    spread: mapValues(result.spread, (one) => ({ min: one.min, max: one.max, by: { ...one.by } })),
    verdict: result.verdict,
  };
}

const notThere = { reason: 'not-defined' };

type At = (index: number) => { index: number; time_s: number };

/** Instants of a jump in index and seconds; those it does not have are left out. */
function jumpDocument(jump: JumpEvents, at: At): NonNullable<TrialDocument['jump']> {
  const { threshold, peakNegativeVelocity, lowestPosition, propulsionStart, firstTouchdown, endOfLanding } = jump;
  return {
    kind: jump.kind,
    threshold_n: threshold.value,
    threshold_rule: threshold.rule,
    zero_offset_n: threshold.zeroOffset,
    ...(firstTouchdown === undefined ? {} : { first_touchdown: at(firstTouchdown) }),
    ...(peakNegativeVelocity ? { peak_negative_velocity: at(peakNegativeVelocity.index) } : {}),
    ...(lowestPosition ? { lowest_position: at(lowestPosition.index) } : {}),
    ...(propulsionStart === undefined ? {} : { propulsion_start: at(propulsionStart) }),
    take_off: at(jump.takeOff),
    touchdown: at(jump.touchdown),
    ...(endOfLanding === undefined ? {} : { end_of_landing: at(endOfLanding) }),
    contacts: jump.contacts.map((one) => ({
      touchdown: at(one.touchdown),
      take_off: at(one.takeOff),
      next_touchdown: at(one.nextTouchdown),
    })),
    phases: jump.phases.map((one) => ({ ...one })),
  };
}

const orReason = <T, D>(outcome: Outcome<T>, show: (value: T) => D): D | { reason: string } =>
  outcome.ok ? show(outcome.value) : { reason: outcome.reason };

function metricDocument(one: Measured): TrialDocument['metrics'][string] {
  if ('reason' in one) return { reason: one.reason };
  return { value: one.value, unit: one.unit, ...(one.exponent === undefined ? {} : { exponent: one.exponent }) };
}

function checkDocument(one: CheckResult): TrialDocument['checks'][string] {
  return {
    status: one.status,
    ...(one.value === undefined ? {} : { value: one.value }),
    ...(one.limit === undefined ? {} : { limit: one.limit }),
    unit: one.unit,
    ...(one.notJudged === undefined ? {} : { reason: one.notJudged }),
  };
}

const mapValues = <T, D>(record: Readonly<Record<string, T>>, show: (value: T) => D): Record<string, D> =>
  Object.fromEntries(Object.entries(record).map(([id, value]) => [id, show(value)]));
