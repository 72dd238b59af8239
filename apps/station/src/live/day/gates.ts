import type { GateEffect, Readiness, StandingGate } from '@sthene/contract';
import type { Protocol } from '@sthene/core';
import type { Gate } from '@sthene/store';

/** Someone's gates for one test on one day. */
export interface GateInput {
  readonly gates: readonly Gate[];
  readonly protocol: Protocol;
  /** `YYYY-MM-DD`. */
  readonly date: string;
  readonly birthDate?: string | undefined;
  readonly readiness?: Readiness | undefined;
  /** The protocol has somebody ask whether the warm-up was done. */
  readonly confirmWarmUp?: boolean;
}

export type Allowed = 'maximal' | 'submaximal' | 'after-answers' | 'nothing';

/**
 * What stands in the way of an effort. What was withheld or has expired blocks; what was never recorded asks, and a readiness
 * answer settles it; a restriction or stop that nobody lifted lets submaximal efforts through.
 */
export function standingGates(input: GateInput): { readonly gates: StandingGate[]; readonly allowed: Allowed } {
  const found = [
    ...clearances(input),
    ...restrictions(input),
    ...papers(input, 'screening'),
    ...(isMinor(input) ? papers(input, 'consent') : []),
    ...answers(input),
    ...warmUp(input),
    ...(isMinor(input) ? [gate('minor', 'notes', 'Under 18: agreement limits for minors apply.')] : []),
  ];
  const has = (effect: GateEffect) => found.some((one) => one.effect === effect);
  return {
    gates: found,
    allowed: has('blocks')
      ? 'nothing'
      : has('asks')
        ? 'after-answers'
        : has('submaximal-only')
          ? 'submaximal'
          : 'maximal',
  };
}

/**
 * Whether a consent on record is in force for this test. What was merely answered before the effort does not count here: that answer
 * is about the effort, and films outlive it.
 */
export function hasConsentOnRecord(input: Omit<GateInput, 'readiness'>): boolean {
  return papers(input, 'consent').length === 0;
}

/** Age under 18 on the day. */
export function isMinor({ birthDate, date }: Pick<GateInput, 'birthDate' | 'date'>): boolean {
  if (birthDate === undefined) return false;
  const years = Number(date.slice(0, 4)) - Number(birthDate.slice(0, 4));
  return years - (date.slice(5) < birthDate.slice(5) ? 1 : 0) < 18;
}

function gate(
  kind: StandingGate['kind'],
  effect: GateEffect,
  words: string,
  of?: Pick<Gate, 'id' | 'limb' | 'test' | 'until'>,
): StandingGate {
  return {
    ...(of === undefined ? {} : { id: of.id }),
    kind,
    effect,
    limb: of?.limb ?? 'both',
    ...(of?.test === undefined ? {} : { test: of.test }),
    ...(of?.until === undefined ? {} : { until: of.until }),
    words,
  };
}

/** Whether a record is about a limb this test loads, this test, and has begun; lifted ones are not. */
function concerns(one: Gate, { protocol, date }: GateInput): boolean {
  if (one.released !== undefined || one.from > date) return false;
  if (one.test !== undefined && one.test !== protocol.id) return false;
  const { limbs } = protocol;
  return one.limb === 'both' || (limbs !== 'left' && limbs !== 'right') || one.limb === limbs;
}

const expired = (one: Gate, date: string) => one.until !== undefined && one.until < date;

/** The latest word on each limb and test holds. */
function latest(input: GateInput, kind: Gate['kind']): Gate[] {
  const newest = new Map<string, Gate>();
  for (const one of input.gates)
    if (one.kind === kind && concerns(one, input)) newest.set(`${one.limb} ${one.test ?? ''}`, one);
  return [...newest.values()];
}

function clearances(input: GateInput): StandingGate[] {
  return latest(input, 'clearance').flatMap((one) => {
    const limb = one.limb === 'both' ? '' : ` for the ${one.limb} side`;
    if (!one.granted)
      return expired(one, input.date) ? [] : [gate('clearance', 'blocks', `No medical clearance${limb}.`, one)];
    if (expired(one, input.date))
      return [gate('clearance', 'blocks', `The medical clearance${limb} ended on ${one.until}.`, one)];
    return [];
  });
}

function restrictions(input: GateInput): StandingGate[] {
  return input.gates.flatMap((one) => {
    if (!concerns(one, input) || !one.granted || expired(one, input.date)) return [];
    if (one.kind === 'submaximal-only')
      return [gate('submaximal-only', 'submaximal-only', 'Cleared for submaximal efforts only.', one)];
    if (one.kind === 'pain-stop')
      return [
        gate('pain-stop', 'submaximal-only', 'Stopped for pain: no maximal effort until a named person lifts it.', one),
      ];
    return [];
  });
}

const paperWords = { screening: 'health screening', consent: 'consent of a parent or guardian' } as const;

function papers(input: GateInput, kind: 'screening' | 'consent'): StandingGate[] {
  const records = latest(input, kind);
  const answered = kind === 'screening' ? input.readiness?.screened : input.readiness?.consent;
  if (records.length === 0)
    return answered === true
      ? []
      : [gate(kind, 'asks', `No ${paperWords[kind]} on record: ask before the first effort.`)];
  return records.flatMap((one) => {
    if (!one.granted) return [gate(kind, 'blocks', `The ${paperWords[kind]} was not given.`, one)];
    if (expired(one, input.date)) return [gate(kind, 'blocks', `The ${paperWords[kind]} ended on ${one.until}.`, one)];
    return [];
  });
}

function warmUp({ confirmWarmUp, readiness }: GateInput): StandingGate[] {
  return confirmWarmUp === true && readiness?.warmedUp !== true
    ? [gate('warm-up', 'asks', 'Ask whether the warm-up was done, before the first effort.')]
    : [];
}

function answers(input: GateInput): StandingGate[] {
  const { readiness } = input;
  if (readiness === undefined) return [];
  const cleared = latest(input, 'clearance').some((one) => one.granted && !expired(one, input.date));
  return [
    ...(readiness.pain ? [gate('pain-stop', 'blocks', 'Pain today: no effort.')] : []),
    ...(readiness.injury && !cleared
      ? [gate('clearance', 'blocks', 'Injured or ill since the last test: medical clearance first.')]
      : []),
  ];
}
