import { exactExp, sineOfTurns, smoothHump, smoothStep } from '../exact-math.ts';
import { type Fault, severityOf } from './fault.ts';

export const dip: Fault = {
  id: 'dip',
  title: 'Dip before the pull',
  what: 'The athlete drops into the bar: force falls below standing and the pull starts from there.',
  expected: ['look-again', 'repeat'],
  ranges: { depth_n: [20, 150], duration_s: [0.15, 0.35] },
  marginal: { when: (s) => severityOf(s, 'depth_n') < 35, words: 'dip under 35 N' },
  effect: (p, s) => ({
    net: (t, net) => {
      const duration = severityOf(s, 'duration_s');
      return net - severityOf(s, 'depth_n') * smoothHump((t - p.onset + duration) / duration);
    },
  }),
};

/** Tension is what the bar takes before the pull; more than half of the pull itself would be the pull. */
const boundedTension: NonNullable<Fault['bounded']> = (p, s) => ({
  ...s,
  tension_n: Math.min(severityOf(s, 'tension_n'), 0.5 * p.netForce),
});

const marginalTension = {
  when: (s: Readonly<Record<string, number>>) => severityOf(s, 'tension_n') < 40,
  words: 'tension under 40 N',
};

export const tensionHeld: Fault = {
  id: 'tension-held',
  title: 'Tension held',
  what: 'The athlete hangs in the bar with steady tension the whole time before the pull.',
  expected: ['look-again', 'repeat'],
  ranges: { tension_n: [20, 600] },
  marginal: marginalTension,
  bounded: boundedTension,
  effect: (p, s) => ({ parameters: { tension: p.tension + severityOf(s, 'tension_n') } }),
};

export const tensionTaken: Fault = {
  id: 'tension-taken',
  title: 'Tension taken shortly before',
  what: 'Tension is taken 0.3 to 3 s before the pull and held until it.',
  expected: ['look-again', 'repeat'],
  ranges: { tension_n: [20, 600], before_s: [0.3, 3], ramp_s: [0.1, 0.3] },
  marginal: marginalTension,
  bounded: boundedTension,
  effect: (p, s) => {
    const tension = severityOf(s, 'tension_n');
    const start = p.onset - severityOf(s, 'before_s');
    return { net: (t, net, share) => net + tension * smoothStep((t - start) / severityOf(s, 'ramp_s')) * (1 - share) };
  },
};

export const slack: Fault = {
  id: 'slack',
  title: 'Slack in the bar',
  what: 'Force rises against the slack, falls back as it gives, and only then the pull begins.',
  expected: ['look-again', 'repeat'],
  ranges: { height_n: [30, 150], duration_s: [0.06, 0.15], pause_s: [0, 0.04] },
  marginal: { when: (s) => severityOf(s, 'height_n') < 40, words: 'slack under 40 N' },
  effect: (p, s) => {
    const duration = severityOf(s, 'duration_s');
    const start = p.onset - severityOf(s, 'pause_s') - duration;
    return { net: (t, net) => net + severityOf(s, 'height_n') * smoothHump((t - start) / duration) };
  },
};

export const barKnock: Fault = {
  id: 'bar-knock',
  title: 'Bar knocks the rack',
  what: 'The bar hits its stop shortly before the pull and rings.',
  expected: ['look-again', 'repeat'],
  ranges: { height_n: [60, 250], before_s: [0.1, 0.6], frequency_hz: [8, 20], decay_s: [0.03, 0.08] },
  effect: (p, s) => {
    const start = p.onset - severityOf(s, 'before_s');
    return {
      net: (t, net, share) => {
        const u = t - start;
        if (u <= 0) return net;
        const ring = exactExp(-u / severityOf(s, 'decay_s')) * sineOfTurns(severityOf(s, 'frequency_hz') * u);
        return net + severityOf(s, 'height_n') * ring * (1 - share);
      },
    };
  },
};

export const stepOnLate: Fault = {
  id: 'step-on',
  title: 'Steps on and pulls',
  what: 'The athlete steps onto the plates and pulls before standing still.',
  expected: ['look-again', 'repeat'],
  ranges: { before_s: [0.8, 1.6] },
  effect: (p, s) => ({ parameters: { stepOnAt: Math.max(0.2, p.onset - severityOf(s, 'before_s')) } }),
};

export const unsteadyStance: Fault = {
  id: 'unsteady-stance',
  title: 'Unsteady stance',
  what: 'The athlete shuffles and bounces in position until the pull.',
  expected: ['look-again', 'repeat'],
  ranges: { amplitude_n: [30, 100], frequency_hz: [0.6, 2], phase: [0, 1] },
  effect: (_p, s) => ({
    net: (t, net, share) => {
      const f = severityOf(s, 'frequency_hz');
      const phase = severityOf(s, 'phase');
      const move = 0.7 * sineOfTurns(f * t + phase) + 0.3 * sineOfTurns(f * 1.7 * t + 3 * phase);
      return net + severityOf(s, 'amplitude_n') * move * (1 - 0.8 * share);
    },
  }),
};
