import type { Measured } from '../../metrics/metric.ts';
import type { JumpPhase } from '../events.ts';
import type { JumpContext } from '../jump-context.ts';
import { single, withBraking } from '../kinds.ts';
import { found, netImpulse, none, overPhase, plain, weightOf, withMotion } from './measuring.ts';
import type { JumpMetricDefinition } from './metric.ts';

const source = 'McMahon et al. 2018, Strength Cond J 40(4):96-106, doi 10.1519/SSC.0000000000000375';

const net = (jump: JumpContext, start: number, end: number): Measured => {
  const weight = weightOf(jump);
  if (!weight.ok) return none(weight.reason);
  return found(netImpulse(jump, weight.value, start, end), 'N.s', { interval: { start, end } });
};

const ofPhase = (
  id: JumpPhase['id'],
  title: string,
  better: JumpMetricDefinition['better'],
  kinds: JumpMetricDefinition['kinds'],
): JumpMetricDefinition => ({
  ...plain,
  id: `${id}_impulse_net`,
  unit: 'N.s',
  title,
  formula: `trapezoidal integral of F - W over the phase of ${id}`,
  source,
  better,
  kinds,
  compute: (jump) => overPhase(jump, id, ({ start, end }) => net(jump, start, end)),
});

/** Net impulses of the phases. In a countermovement jump unweighting and braking cancel; in all, they make m v_to. */
export const impulseMetrics: readonly JumpMetricDefinition[] = [
  ofPhase('unweighting', 'Net impulse of unweighting', 'neither', ['countermovement']),
  ofPhase('braking', 'Net impulse of braking', 'neither', withBraking),
  ofPhase('propulsion', 'Net impulse of propulsion', 'higher', single),
  {
    ...plain,
    id: 'jump_impulse_net',
    unit: 'N.s',
    title: 'Net impulse of the jump',
    formula: 'trapezoidal integral of F - W from onset (drop jump: from the first touchdown) to take-off',
    source,
    better: 'higher',
    kinds: single,
    compute: (jump) => withMotion(jump, (motion) => net(jump, motion.start, jump.events.takeOff)),
  },
];
