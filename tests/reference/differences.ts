import type { Measured, Outcome, TrialResult } from '@sthene/core';
import type { Input, Maybe, Result } from './plain/types.ts';

type Plain = Maybe<number> | number | string | undefined;

/** 1e-9 relative; a value that is itself a small difference of large forces is held to 1e-9 of its unit. */
export function close(one: number, other: number): boolean {
  return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one), Math.abs(other));
}

/** Every place where the product's trials and the plain ones differ, one line each. */
export function differences(input: Input, plain: readonly Result[], core: readonly TrialResult[]): string[] {
  const out: string[] = [];
  const compare = (what: string, mine: Plain, theirs: Plain) => {
    const one = typeof mine === 'object' ? ('value' in mine ? mine.value : mine.reason) : mine;
    const other = typeof theirs === 'object' ? ('value' in theirs ? theirs.value : theirs.reason) : theirs;
    const same = typeof one === 'number' && typeof other === 'number' ? close(one, other) : one === other;
    if (!same) out.push(`${what}: plain ${one}, core ${other}`);
  };
  compare('number of efforts', plain.length, core.length);
  if (plain.length !== core.length) return out;
  for (const [i, mine] of plain.entries()) {
    compareTrial(mine, core[i]!, input, (what, a, b) => compare(`[${i}] ${what}`, a, b));
  }
  return out;
}

type Compare = (what: string, mine: Plain, theirs: Plain) => void;

function compareTrial(mine: Result, theirs: TrialResult, input: Input, compare: Compare): void {
  compare('reason', mine.reason, theirs.reason);
  compare('verdict', mine.verdict, theirs.verdict);
  compare('span start', mine.span.start, theirs.span.start);
  compare('span end', mine.span.end, theirs.span.end);
  if (mine.reason !== undefined || theirs.reason !== undefined) {
    for (const [id, measured] of Object.entries(theirs.metrics))
      compare(id, { reason: mine.reason! }, outcome(measured));
    return;
  }
  compareEvents(mine, theirs, compare);
  compare(
    'W',
    map(mine.W!, (w) => w.value),
    of(theirs.bodyWeight, (w) => w.value),
  );
  compare(
    'W from',
    text(mine.W!, (w) => w.from),
    textOf(theirs.bodyWeight, (w) => w.from),
  );
  compare(
    'onset',
    map(mine.onset!, (o) => o.index),
    of(theirs.onset, (o) => o.index),
  );
  if (input.onsetByHand === undefined) {
    compare(
      'threshold',
      map(mine.onset!, (o) => o.threshold),
      of(theirs.onset, (o) => o.threshold),
    );
  }
  for (const rule of new Set([...Object.keys(mine.onsets!), ...Object.keys(theirs.onsets)])) {
    const a = mine.onsets![rule];
    const b = theirs.onsets[rule];
    compare(`onset by ${rule}`, a && map(a, (o) => o.index), b && of(b, (o) => o.index));
    compare(`threshold of ${rule}`, a && map(a, (o) => o.threshold), b && of(b, (o) => o.threshold));
  }
  for (const id of new Set([...Object.keys(mine.metrics), ...Object.keys(theirs.metrics)])) {
    const measured = theirs.metrics[id];
    compare(id, mine.metrics[id], measured && outcome(measured));
  }
  for (const id of new Set([...Object.keys(mine.checks), ...Object.keys(theirs.checks)])) {
    const a = mine.checks[id];
    const b = theirs.checks[id];
    compare(`${id} status`, a?.status, b?.status);
    compare(`${id} not judged`, a?.notJudged, b?.notJudged);
    compare(`${id} value`, a?.value, b?.value);
  }
}

function compareEvents(mine: Result, theirs: TrialResult, compare: Compare): void {
  const a = mine.events!;
  const b = theirs.events!;
  compare('anchor c', a.c, b.anchor);
  compare('M', a.M, b.anchorMean);
  compare('Q', a.Q, b.quietLevel);
  compare('H', a.H, b.halfLevel);
  compare('r', a.r, b.halfRise);
  compare('e', a.e, b.end);
  compare('p', a.p, b.peak.index);
  compare('F_p', a.Fp, b.peak.force);
  compare(
    'q',
    a.q,
    of(b.riseStart, (q) => q),
  );
  compare(
    'baseline start',
    map(a.baseline, (x) => x.start),
    of(b.baseline, (x) => x.start),
  );
  compare(
    'baseline end',
    map(a.baseline, (x) => x.end),
    of(b.baseline, (x) => x.end),
  );
  compare(
    'B',
    map(a.baseline, (x) => x.mean),
    of(b.baseline, (x) => x.mean),
  );
  compare(
    'S',
    map(a.baseline, (x) => x.sd),
    of(b.baseline, (x) => x.sd),
  );
}

const map = <T>(maybe: Maybe<T>, read: (value: T) => number): Maybe<number> =>
  'value' in maybe ? { value: read(maybe.value) } : maybe;
const text = <T>(maybe: Maybe<T>, read: (value: T) => string): string =>
  'value' in maybe ? read(maybe.value) : maybe.reason;
const of = <T>(found: Outcome<T>, read: (value: T) => number): Maybe<number> =>
  found.ok ? { value: read(found.value) } : { reason: found.reason };
const textOf = <T>(found: Outcome<T>, read: (value: T) => string): string =>
  found.ok ? read(found.value) : found.reason;
const outcome = (measured: Measured): Maybe<number> =>
  'value' in measured ? { value: measured.value } : { reason: measured.reason };
