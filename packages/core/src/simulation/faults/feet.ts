import { exactExp, sineOfTurns, smoothHump, smoothStep } from '../exact-math.ts';
import { type Fault, severityOf } from './fault.ts';

const isLeft = (s: Readonly<Record<string, number>>): boolean => severityOf(s, 'side') < 0.5;

export const reLanding: Fault = {
  id: 're-landing',
  title: 'Foot lifted and put down',
  what: 'One foot leaves its plate and lands again within the last second before the pull.',
  expected: ['look-again', 'repeat'],
  ranges: { before_s: [0.15, 1], lifted_s: [0.2, 0.5], landing_n: [60, 300], frequency_hz: [3, 6], side: [0, 1] },
  effect: (p, s) => {
    const land = p.onset - severityOf(s, 'before_s');
    const lifted = severityOf(s, 'lifted_s');
    const left = isLeft(s);
    return {
      feet: (t, feet) => {
        const air = smoothStep((t - land + lifted) / 0.08) * (1 - smoothStep((t - land) / 0.06));
        const u = t - land;
        const swing = u <= 0 ? 0 : exactExp(-u / 0.12) * sineOfTurns(severityOf(s, 'frequency_hz') * u);
        const push = 0.3 * severityOf(s, 'landing_n') * smoothHump((t - land + lifted + 0.1) / 0.15);
        const extra = severityOf(s, 'landing_n') * swing;
        const lifting = left ? feet.left : feet.right;
        const standing = (left ? feet.right : feet.left) + lifting * air + push;
        const landing = lifting * (1 - air) + extra;
        return left ? { left: landing, right: standing } : { left: standing, right: landing };
      },
    };
  },
};

export const oneFootOn: Fault = {
  id: 'one-foot-on',
  title: 'One foot beside the plate',
  what: 'One foot stands on the floor, so its plate carries nothing.',
  expected: ['repeat'],
  ranges: { side: [0, 1] },
  effect: (_p, s) => ({
    feet: (_t, feet) => (isLeft(s) ? { left: 0, right: feet.right } : { left: feet.left, right: 0 }),
  }),
};

export const otherFoot: Fault = {
  id: 'other-foot',
  title: 'Other foot down',
  what: 'In a single-leg pull the other foot presses on its plate from some time after the start until the end.',
  expected: ['repeat'],
  ranges: { force_n: [30, 250], from_s: [-1.5, 1.5], side: [0, 1] },
  bounded: (p, s) => ({ ...s, force_n: Math.min(severityOf(s, 'force_n'), 0.4 * p.bodyWeight) }),
  effect: (p, s) => {
    const limbs = p.limbs === 'both' ? (isLeft(s) ? 'left' : 'right') : p.limbs;
    const start = p.onset + severityOf(s, 'from_s');
    return {
      parameters: { limbs },
      feet: (t, feet) => {
        const moved = severityOf(s, 'force_n') * smoothStep((t - start) / 0.2);
        return limbs === 'left'
          ? { left: feet.left - moved, right: feet.right + moved }
          : { left: feet.left + moved, right: feet.right - moved };
      },
    };
  },
};
