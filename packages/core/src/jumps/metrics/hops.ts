import type { Measured } from '../../metrics/metric.ts';
import { have, lack, type Outcome } from '../../outcome.ts';
import { meanOf, touchesGap } from '../../signal/index.ts';
import type { JumpContext } from '../jump-context.ts';
import { hopStiffness } from '../stiffness.ts';
import { found, heightFromFlight, massOf, none, plain, seconds, term } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

/** Longest contact of a fast stretch and shortening, s. */
export const fastContact = 0.25;
/** So many of the best hops make the score. */
const bestCount = 5;

/** One hop: contact, then flight. */
interface Hop {
  readonly at: number;
  readonly contact: number;
  readonly flight: number;
  readonly height: number;
  readonly index: number;
}

function hopsOf(jump: JumpContext): Outcome<readonly Hop[]> {
  const { contacts } = jump.events;
  const [first] = contacts;
  const last = contacts.at(-1);
  if (first === undefined || last === undefined) return lack('no-jump');
  if (touchesGap(jump.forces, first.touchdown, last.nextTouchdown)) return lack('gap-in-interval');
  return have(
    contacts.map(({ touchdown, takeOff, nextTouchdown }): Hop => {
      const contact = seconds(jump, touchdown, takeOff);
      const flight = seconds(jump, takeOff, nextTouchdown);
      const height = heightFromFlight(flight, jump.gravity);
      return { at: touchdown, contact, flight, height, index: height / contact };
    }),
  );
}

const span = ({ events }: JumpContext) => ({
  start: events.contacts[0]?.touchdown ?? events.takeOff,
  end: events.contacts.at(-1)?.nextTouchdown ?? events.touchdown,
});

function ofAll(jump: JumpContext, unit: string, compute: (hops: readonly Hop[]) => number): Measured {
  const hops = hopsOf(jump);
  return hops.ok ? found(compute(hops.value), unit, { interval: span(jump) }) : none(hops.reason);
}

/** The five hops with the highest index among those with a fast contact, or `too-few-values`. */
function bestFive(jump: JumpContext): Outcome<readonly Hop[]> {
  const hops = hopsOf(jump);
  if (!hops.ok) return hops;
  const fast = hops.value.filter(({ contact }) => contact < fastContact);
  const best = [...fast].sort((a, b) => b.index - a.index || a.at - b.at).slice(0, bestCount);
  return best.length < bestCount ? lack('too-few-values') : have(best);
}

function ofBest(jump: JumpContext, unit: string, value: (hop: Hop) => number): Measured {
  const best = bestFive(jump);
  if (!best.ok) return none(best.reason);
  return found(meanOf(best.value.map(value)), unit, {
    interval: span(jump),
    terms: [...best.value]
      .sort((a, b) => a.at - b.at)
      .map((hop) => term(`hop at ${(hop.at / jump.forces.sampleRate).toFixed(2)} s`, value(hop), unit)),
  });
}

function stiffness(jump: JumpContext): Measured {
  const best = bestFive(jump);
  if (!best.ok) return none(best.reason);
  const mass = massOf(jump);
  if (!mass.ok) return none(mass.reason);
  const values = best.value.map(({ contact, flight }) => hopStiffness(mass.value, contact, flight));
  return found(meanOf(values), 'N/m', { interval: span(jump), terms: [term('mass', mass.value, 'kg')] });
}

const harper = 'Harper et al. 2011, conference paper (from memory)';
const fixed = { ...plain, kinds: ['repeated'] } as const;
const five = 'over the five hops with the highest index among those with a contact under 250 ms';

/** A series of hops; the first flight only starts it. */
export const hopMetrics: readonly JumpMetricDefinition[] = [
  {
    ...fixed,
    id: 'hop_rsi_best_five',
    unit: 'm/s',
    title: 'Reactive strength index, best five hops',
    formula: `mean of (g t_f^2 / 8) / t_c ${five}`,
    source: `${harper}; 250 ms: Schmidtbleicher 1992 (from memory)`,
    better: 'higher',
    compute: (jump) => ofBest(jump, 'm/s', ({ index }) => index),
  },
  {
    ...fixed,
    id: 'hop_contact_time_best_five',
    unit: 's',
    title: 'Contact time, best five hops',
    formula: `mean of t_c ${five}`,
    source: harper,
    better: 'lower',
    compute: (jump) => ofBest(jump, 's', ({ contact }) => contact),
  },
  {
    ...fixed,
    id: 'hop_height_best_five',
    unit: 'm',
    title: 'Hop height, best five hops',
    formula: `mean of g t_f^2 / 8 ${five}`,
    source: harper,
    better: 'higher',
    compute: (jump) => ofBest(jump, 'm', ({ height }) => height),
  },
  {
    ...fixed,
    id: 'hop_stiffness_best_five',
    unit: 'N/m',
    title: 'Vertical stiffness, best five hops',
    formula: `mean of m pi (t_f + t_c) / (t_c^2 ((t_f + t_c) / pi - t_c / 4)) ${five}`,
    source: 'Dalleau et al. 2004, Int J Sports Med 25:170-176 (from memory)',
    better: 'neither',
    compute: stiffness,
  },
  {
    ...fixed,
    id: 'hop_rsi_mean',
    unit: 'm/s',
    title: 'Reactive strength index, all hops',
    formula: 'mean of (g t_f^2 / 8) / t_c over every hop but the first flight',
    source: harper,
    better: 'higher',
    compute: (jump) => ofAll(jump, 'm/s', (hops) => meanOf(hops.map(({ index }) => index))),
  },
  {
    ...fixed,
    id: 'hop_height_highest',
    unit: 'm',
    title: 'Highest hop',
    formula: 'largest g t_f^2 / 8',
    source: harper,
    better: 'higher',
    compute: (jump) => ofAll(jump, 'm', (hops) => Math.max(...hops.map(({ height }) => height))),
  },
  {
    ...fixed,
    id: 'hop_count',
    unit: '1',
    title: 'Hops',
    formula: 'contacts followed by a flight',
    source: harper,
    better: 'neither',
    compute: (jump) => ofAll(jump, '1', (hops) => hops.length),
  },
];
