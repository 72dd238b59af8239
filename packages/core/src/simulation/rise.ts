import { exactExp, exactPower } from './exact-math.ts';

/** Form of the fast part of the rise; all start at exactly 0 at the onset. */
export type RiseForm = 'power-exponential' | 'sigmoid' | 'second-order';

/** How force develops after the onset: a fast part and a slow climb to the plateau. */
export interface RiseShape {
  readonly form: RiseForm;
  /** Time from onset to about half of the fast part, s. */
  readonly halfTime: number;
  /** power-exponential: the exponent (2 gives 1 - exp(-(t / tau)^2)). sigmoid: steepness times half time. */
  readonly bend: number;
  /** Share of the slow climb in the whole, and its time constant in s. */
  readonly slowShare: number;
  readonly slowTime: number;
}

const ln2 = Math.LN2;

/**
 * Share of the plateau reached `s` seconds after the true onset: 0 for s <= 0, increasing, towards 1.
 *
 * power-exponential 1 - exp(-(s/tau)^bend); sigmoid: a logistic cut at the onset, where it stands at 1 / (1 + e^bend), and
 * stretched to start at 0; second-order 1 - (1 + s/tau) exp(-s/tau), a critically damped start.
 */
export function riseShare(s: number, shape: RiseShape): number {
  if (s <= 0) return 0;
  const slow = 1 - exactExp(-s / shape.slowTime);
  return (1 - shape.slowShare) * fastPart(s, shape) + shape.slowShare * slow;
}

function fastPart(s: number, shape: RiseShape): number {
  switch (shape.form) {
    case 'power-exponential': {
      const tau = shape.halfTime / exactPower(ln2, 1 / shape.bend);
      return 1 - exactExp(-exactPower(s / tau, shape.bend));
    }
    case 'sigmoid': {
      const foot = 1 / (1 + exactExp(shape.bend));
      const value = 1 / (1 + exactExp(-shape.bend * (s / shape.halfTime - 1)));
      return (value - foot) / (1 - foot);
    }
    case 'second-order': {
      const x = (s / shape.halfTime) * 1.678346990016661; // 1 - (1 + x) e^-x = 1/2
      return 1 - (1 + x) * exactExp(-x);
    }
  }
}

/** First time after the onset at which the rise reaches a share, s; by bisection. */
export function timeOfShare(share: number, shape: RiseShape): number {
  let low = 0;
  let high = 8;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (riseShare(middle, shape) < share) low = middle;
    else high = middle;
  }
  return high;
}
