import { deepFreeze } from '../../methods/built-in/freeze.ts';
import { registry } from '../../registry.ts';
import type { JumpMethod } from './jump-method.ts';
import { standardJumpChecks, standardJumpMetrics } from './standard-choices.ts';

/**
 * The default jump method. Onset and quiet second after Owen et al. 2014, J Strength Cond Res 28(6):1552-1558; take-off and
 * touchdown by five SD of the force in flight (used by McMahon and others). Limits without a published number are proposals and
 * say so in docs/reference/jumps.md.
 */
export const standardJump: JumpMethod = deepFreeze({
  schema: 'sthene.jump-method/1',
  name: 'Sthene jumps',
  version: 1,
  summary:
    'Unfiltered force, body weight from one quiet second, onset at five of its SDs and 30 ms back, take-off and touchdown at five SDs of the force in flight, height from take-off velocity.',
  weighing: { window: 1, search: 10, clearance: 0.1 },
  onset: { rule: 'jump-five-sd-back-30', version: 1 },
  flight: {
    rule: 'five-sd-of-flight',
    version: 1,
    firstPass: 20,
    middle: 0.3,
    middleShare: 0.6,
    least: 1,
    leastTime: 0.1,
    rezero: 5,
  },
  split: { longestFlight: 1.2, push: 1.15, landing: 1.3, bounce: 0.5, contact: 1, leastHops: 3 },
  metrics: standardJumpMetrics,
  checks: standardJumpChecks,
  set: { summary: 'mean-all', agreement: 0.03, agreementShare: 0.1, closesAfter: 6 },
});

const fixed = (newtons: 10 | 20 | 30): JumpMethod =>
  deepFreeze({
    ...standardJump,
    name: `Sthene jumps, ${newtons} N`,
    summary: `As the standard jump method, with take-off and touchdown at ${newtons} N.`,
    flight: { ...standardJump.flight, rule: `fixed-${newtons}` },
  });

/** The criterion of the two: Baca 1999, Med Sci Sports Exerc 31(3):437-442; McMahon et al. 2021, Biomechanics 1(2):178-189. */
const boxOnPlate: JumpMethod = deepFreeze({
  ...standardJump,
  name: 'Sthene jumps, box on a plate',
  summary:
    'As the standard jump method; a drop jump is weighed while standing on the box, which stands on a plate of its own, and integrated from there to the touchdown.',
  drop: { rule: 'stand-on-box', version: 1 },
});

/** A built-in jump method under the short id by which a command line or an address names it. */
export interface JumpMethodEntry {
  readonly id: string;
  readonly method: JumpMethod;
}

/** The built-in jump methods; the first is the default. */
export const jumpMethodRegistry = registry<JumpMethodEntry>('jump method', [
  { id: 'jumps', method: standardJump },
  { id: 'jumps-10', method: fixed(10) },
  { id: 'jumps-20', method: fixed(20) },
  { id: 'jumps-30', method: fixed(30) },
  { id: 'jumps-box-plate', method: boxOnPlate },
]);

/** The jump method used when none is named. */
export const defaultJumpMethod: JumpMethod = standardJump;
