import type { RigView } from '@sthene/contract';
import { protocolRegistry, runningRules } from '@sthene/core';
import { numberText, quantityText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { rigWords } from '../../words/rig.ts';
import { rigCheckWords } from '../../words/rig-check.ts';
import type { Standing } from './ready-check.ts';

/** A line of the check without its title. */
export type Line = readonly [standing: Standing, value: string, words: string];

/** What zeroing allows, N: noise, and how far a plate may read from its zero. */
function zeroRules(): { sd: number; limit: number; held: number } {
  const protocol = protocolRegistry.get('imtp');
  const none = Number.POSITIVE_INFINITY;
  return protocol ? runningRules(protocol).zero : { sd: none, limit: none, held: none };
}

const force = (value: number, unit = 'N') => quantityText(value, unit, { sampleRate: 1000 });

const isForce = (axis: string): boolean => axis === 'z' || axis === 'force';

/** Which device it is, and how it would be known again. */
export function deviceLine({ state, device }: RigView): Line {
  const t = rigWords.check;
  if (state === 'closed') return ['open', t.none, t.deviceNotYet];
  return device === undefined ? ['open', t.none, t.deviceUnknown] : ['good', device, t.deviceKnown];
}

/** Noise of what is analysed; signals and moments have other units and cannot be compared with it. */
export function noiseLine({ channels }: RigView): Line {
  const t = rigWords.check;
  const known = channels.flatMap(({ noise, second, unit, name, axis }) => {
    const sd = noise ?? second?.sd;
    return sd === undefined || !isForce(axis)
      ? []
      : [{ sd, unit, name, atRest: noise !== undefined, mains: second?.mains }];
  });
  if (known.length === 0) return ['open', t.none, t.noiseNotYet];
  const worst = known.reduce((a, b) => (b.sd > a.sd ? b : a));
  const limit = zeroRules().sd;
  const loud = worst.unit === 'N' && worst.sd > limit;
  const hum = known.find(({ mains }) => mains !== undefined);
  const words = [
    worst.atRest ? t.noiseOf(worst.name) : t.noiseNow(worst.name),
    ...(loud ? [t.noiseLoud(numberText(limit, 0))] : []),
    ...(hum?.mains ? [t.noiseMains(hum.name, hum.mains.frequency, force(hum.mains.amplitude, hum.unit))] : []),
  ];
  return [loud ? 'look' : 'good', force(worst.sd, worst.unit), words.join(' ')];
}

/** When zero was taken, and how far the empty plates have moved from it since. */
export function zeroLine({ zero, channels }: RigView): Line {
  const t = rigWords.check;
  if (zero.at === undefined) return ['open', t.none, zero.words];
  const { limit, held } = zeroRules();
  const away = channels.flatMap(({ zero: at, second, unit, axis }) =>
    at === undefined || second === undefined || unit !== 'N' || !isForce(axis) ? [] : [second.mean - at],
  );
  const worst = away.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0);
  const taken = whenText(zero.at);
  if (!zero.held) return ['look', taken, zero.words];
  // Somebody stands there: the zero cannot be seen.
  if (away.length === 0 || Math.abs(worst) > limit) return ['good', taken, zero.words];
  const moved = Math.abs(worst) > held;
  return [moved ? 'look' : 'good', taken, moved ? t.zeroMoved(force(worst)) : t.zeroHolds(force(worst))];
}

/** Whether a channel stands at the end of its range. */
export function rangeLine({ channels }: RigView): Line {
  const t = rigWords.check;
  const seen = channels.flatMap(({ name, axis, second }) =>
    second === undefined ? [] : [{ name, axis, at: second.saturated }],
  );
  if (seen.length === 0) return ['open', t.none, t.rangeNotYet];
  const full = seen.filter(({ at }) => at === true).map(({ name }) => name);
  if (full.length > 0) return ['bad', t.rangeFull, t.rangeFullNext(full.join(', '))];
  // Shear forces and moments are not analysed; raw signals are what forces are made of.
  return seen.some(({ axis, at }) => at === undefined && (isForce(axis) || axis === 'other'))
    ? ['open', t.none, t.rangeUnknown]
    : ['good', t.rangeFree, t.rangeFreeWords];
}

const verdictStandings = { passes: 'good', look: 'look', fails: 'bad', incomplete: 'look' } as const;

/** What the newest check with known masses said, and when the next is due. */
export function knownMassLine({ check }: RigView): Line {
  const t = rigWords.check;
  if (check?.at === undefined || check.verdict === undefined) return ['open', t.none, t.knownMassNever];
  const { verdict, at, due, corrected, failed, checkedTo = 0 } = check;
  const words = [
    rigCheckWords.verdicts[verdict],
    ...(checkedTo > 0 ? [t.knownMassTo(force(checkedTo))] : []),
    rigCheckWords.history.due[check.standing](due === undefined ? '' : whenText(due, false)),
    ...(corrected.length === 0 ? [] : [rigCheckWords.known.corrected(corrected.join(', '))]),
  ];
  const late = check.standing === 'overdue' || check.standing === 'soon';
  // Whoever adopted the correction of a check that failed has acted on it.
  const own = verdict === 'fails' && !failed ? 'look' : verdictStandings[verdict];
  return [own === 'good' && late ? 'look' : own, whenText(at, false), words.join(' ')];
}
