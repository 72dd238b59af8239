import { smoothHump, smoothStep } from '../exact-math.ts';
import { timeOfShare } from '../rise.ts';
import { type Fault, severityOf } from './fault.ts';

export const earlyEnd: Fault = {
  id: 'early-end',
  title: 'Lets go too early',
  what: 'The pull is let go after 0.6 to 1.7 s where about 3 to 5 s are asked for.',
  expected: ['look-again', 'repeat'],
  ranges: { hold_s: [0.6, 1.7] },
  effect: (_p, s) => ({ parameters: { hold: severityOf(s, 'hold_s') } }),
};

export const doublePull: Fault = {
  id: 'double-pull',
  title: 'Two pulls in one',
  what: 'A first pull gives way by a quarter or more of the force and a second one follows; either may be the higher.',
  expected: ['look-again', 'repeat'],
  ranges: { first: [0.6, 1.1], drop: [0.25, 0.5], at_s: [0.45, 1.2], duration_s: [0.25, 0.5] },
  effect: (p, s) => {
    const first = severityOf(s, 'first');
    const at = p.onset + severityOf(s, 'at_s');
    const duration = severityOf(s, 'duration_s');
    return {
      net: (t, net) => {
        const level = first + (1 - first) * smoothStep((t - at - duration / 2) / (duration / 2));
        return net * (level - severityOf(s, 'drop') * smoothHump((t - at) / duration));
      },
    };
  },
};

export const steppedRise: Fault = {
  id: 'stepped-rise',
  title: 'Stepped rise',
  what: 'The rise stalls or sags part of the way up before it goes on.',
  expected: ['look-again', 'repeat'],
  ranges: { level: [0.2, 0.6], pause_s: [0.14, 0.3], sag: [0, 0.12] },
  effect: (p, s) => {
    const stall = timeOfShare(severityOf(s, 'level'), p.rise);
    const pause = severityOf(s, 'pause_s');
    return {
      rise: (since, plain) => {
        if (since <= stall) return plain(since);
        if (since >= stall + pause) return plain(since - pause);
        return plain(stall) - severityOf(s, 'sag') * smoothHump((since - stall) / pause);
      },
    };
  },
};

export const peakAtEnd: Fault = {
  id: 'peak-at-end',
  title: 'Peak at the very end',
  what: 'Force climbs to its largest value right before letting go.',
  expected: ['look-again', 'repeat'],
  ranges: { gain: [0.06, 0.2], ramp_s: [0.3, 1] },
  effect: (p, s) => {
    const ramp = severityOf(s, 'ramp_s');
    const tired = p.fatigue * Math.max(0, p.hold - p.fatigueFrom);
    const gain = severityOf(s, 'gain') + tired;
    return { net: (t, net) => net * (1 + gain * smoothStep((t - p.onset - p.hold + ramp) / ramp)) };
  },
};
