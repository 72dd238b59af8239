import type { SampleSpan } from '../../recording/sample.ts';
import type { PullParameters } from '../parameters.ts';
import { type Fault, severityOf } from './fault.ts';

const indexAt = (t: number, rate: number, count: number): number =>
  Math.min(count - 1, Math.max(0, Math.floor(t * rate)));

/** The plate that carries the pull: on one leg there is only one. */
const carriesLeft = (p: PullParameters, side: number): boolean =>
  p.limbs === 'both' ? side < 0.5 : p.limbs === 'left';

export const spike: Fault = {
  id: 'spike',
  title: 'Spike',
  what: 'One plate gives a few samples far above the rest during the plateau.',
  expected: ['look-again', 'repeat'],
  ranges: { height: [0.08, 0.6], width_s: [0.001, 0.006], at: [0.3, 0.95], side: [0, 1] },
  effect: (p, s) => ({
    samples: ({ left, right, sampleRate }) => {
      const plate = carriesLeft(p, severityOf(s, 'side')) ? left : right;
      const start = indexAt(p.onset + severityOf(s, 'at') * p.hold, sampleRate, plate.length);
      const width = Math.max(1, Math.floor(severityOf(s, 'width_s') * sampleRate));
      const height = severityOf(s, 'height') * (p.bodyWeight + p.netForce);
      for (let n = start; n < Math.min(plate.length, start + width); n++) plate[n] = plate[n]! + height;
      return [];
    },
  }),
};

export const clipping: Fault = {
  id: 'clipping',
  title: 'Plate at its limit',
  what: 'The range of the plates ends below the pull, so the top is cut off.',
  expected: ['repeat'],
  ranges: { share: [0.55, 0.95] },
  effect: (p, s) => {
    const carried = p.limbs === 'both' ? Math.max(p.pullShareRight, 1 - p.pullShareRight) : 1;
    return { parameters: { plateRange: severityOf(s, 'share') * carried * (p.bodyWeight + p.netForce) } };
  },
};

export const gap: Fault = {
  id: 'gap',
  title: 'Missing samples',
  what: 'Samples of both plates are missing for 2 to 80 ms between the quiet second and the end.',
  expected: ['look-again', 'repeat'],
  ranges: { length_s: [0.002, 0.08], at: [0, 1] },
  effect: (p, s) => ({
    samples: ({ left, right, sampleRate }) => {
      // From the middle of the last quiet second, which any baseline contains, to just before letting go.
      const first = p.onset - 0.4;
      const at = first + severityOf(s, 'at') * (p.hold + 0.4 - 0.2);
      const start = indexAt(at, sampleRate, left.length);
      const end = Math.min(left.length, start + Math.max(1, Math.floor(severityOf(s, 'length_s') * sampleRate + 0.5)));
      left.fill(Number.NaN, start, end);
      right.fill(Number.NaN, start, end);
      return [{ start, end } satisfies SampleSpan];
    },
  }),
};

export const lostSide: Fault = {
  id: 'lost-side',
  title: 'A plate goes silent',
  what: 'One plate reads zero from some time around the start of the pull to the end of the recording.',
  expected: ['repeat'],
  ranges: { from_s: [-0.3, 1.5], side: [0, 1] },
  effect: (p, s) => ({
    samples: ({ left, right, sampleRate }) => {
      const plate = carriesLeft(p, severityOf(s, 'side')) ? left : right;
      plate.fill(0, indexAt(p.onset + severityOf(s, 'from_s'), sampleRate, plate.length));
      return [];
    },
  }),
};

export const lowRate: Fault = {
  id: 'low-rate',
  title: 'Sample rate too low',
  what: 'The plates are sampled at 100 to 900 Hz.',
  expected: ['look-again', 'repeat'],
  ranges: { hundreds_hz: [1, 9.999] },
  effect: (_p, s) => ({ parameters: { sampleRate: 100 * Math.floor(severityOf(s, 'hundreds_hz')) } }),
};
