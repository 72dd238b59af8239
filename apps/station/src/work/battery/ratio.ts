import type { Ratio, RatioComponent, RatioWord } from '@sthene/contract';
import { meanOf, type Outcome } from '@sthene/core';
import { bilateralUse, type Component, dynamicStrengthIndex, type SideOfLimit, stretchUse } from '@sthene/core/stats';
import type { RatioDefinition } from './definitions.ts';
import type { Match } from './match.ts';
import type { SideHistory, ValuedSession } from './side-history.ts';

type Judged = Pick<Ratio, 'value' | 'error' | 'interval' | 'word' | 'because'>;

/** A ratio of sessions that belong together; undefined where a value is not above zero. */
export function ratioOf(
  definition: RatioDefinition,
  sides: readonly SideHistory[],
  match: Match<ValuedSession>,
): Omit<Ratio, 'cautions'> | undefined {
  const components = definition.sides.map(({ role }, i): RatioComponent => {
    const [side, session] = [sides[i] as SideHistory, match.sessions[i] as ValuedSession];
    return {
      ...{ role, test: side.test, metric: side.metric, title: side.title, unit: side.unit },
      ...{ value: session.value, session: session.session, at: session.at, n: session.n, maximal: session.maximal },
      ...side.errorOf(session),
      familiarisation: session.familiarisation,
    };
  });
  const judged = judge(definition, components, sides, match);
  return judged.ok ? { at: match.at, days: match.days, ...judged.value, components } : undefined;
}

function judge(
  { id }: RatioDefinition,
  components: readonly RatioComponent[],
  sides: readonly SideHistory[],
  match: Match<ValuedSession>,
): Outcome<Judged> {
  const [a, b, c] = components.map(
    ({ value, error }): Component => ({ value, ...(error === undefined ? {} : { error }) }),
  );
  if (a === undefined || b === undefined) return { ok: false, reason: 'too-few-values' };
  switch (id) {
    case 'dynamic_strength_index': {
      const usual = usualBefore(sides[1] as SideHistory, match.sessions[1] as ValuedSession);
      const found = dynamicStrengthIndex(a, b, usual);
      if (!found.ok) return found;
      const { value, error, interval, emphasis, because } = found.value;
      if (error === undefined || interval === undefined) return { ok: true, value: { value, ...unsure } };
      return {
        ok: true,
        value: {
          value,
          error,
          interval: shown(interval),
          word: emphasis,
          ...(because === undefined ? {} : { because }),
        },
      };
    }
    case 'eccentric_utilisation_ratio': {
      const found = stretchUse(a, b);
      return found.ok
        ? { ok: true, value: { value: found.value.ratio, ...said(found.value, { over: 'gain', under: 'no-gain' }) } }
        : found;
    }
    case 'bilateral_index': {
      const found = bilateralUse(a, b, c as Component);
      return found.ok
        ? {
            ok: true,
            value: { value: found.value.index, ...said(found.value, { over: 'facilitation', under: 'deficit' }) },
          }
        : found;
    }
  }
}

const unsure = { word: 'undecided', because: 'no-error' } as const;

type Interval = NonNullable<Ratio['interval']>;
const shown = ({ low, high, level }: Interval): Interval => ({ low, high, level });

function said(
  { error, interval, side }: { readonly error?: number; readonly interval?: Interval; readonly side: SideOfLimit },
  words: Readonly<Record<'over' | 'under', RatioWord>>,
): Omit<Judged, 'value'> {
  if (error === undefined || interval === undefined) return unsure;
  const known = { error, interval: shown(interval) };
  return side === 'undecided'
    ? { ...known, word: 'undecided', because: 'interval-crosses' }
    : { ...known, word: words[side] };
}

/** What the athlete usually pulled before a session: the mean of the three sessions before it, or of as many as there are. */
function usualBefore({ valued }: SideHistory, { at }: ValuedSession): number | undefined {
  const before = valued.filter((one) => !one.familiarisation && one.at < at).slice(-3);
  return before.length === 0 ? undefined : meanOf(before.map(({ value }) => value));
}
