import type { Channel, Recording, UtcInstant } from '@sthene/core';

/** A repeatable source of numbers in [0, 1): the linear congruential generator of Numerical Recipes. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A recording from its channels; everything else has a plain default. */
export function recordingOf(channels: readonly Channel[], more: Partial<Recording> = {}): Recording {
  return {
    sampleRate: 1000,
    rateOrigin: 'declared',
    sampleCount: channels[0]?.raw.length ?? 0,
    channels,
    platforms: [],
    gaps: [],
    events: [],
    facts: {},
    notices: [],
    ...more,
  };
}

/** A channel of doubles in its own unit. */
export const channelOf = (name: string, unit: string, raw: Channel['raw'], scale = 1, offset = 0): Channel => ({
  name,
  unit,
  raw,
  scale,
  offset,
});

const wave = (count: number, seed: number): Float64Array => {
  const next = seeded(seed);
  return Float64Array.from({ length: count }, (_, n) => 400 + 900 * Math.sin(n / 90) ** 2 + 4 * (next() - 0.5));
};

/** The same as single precision numbers, for formats that store those. */
const single = (values: Float64Array): Float32Array => Float32Array.from(values);

/**
 * Recordings every format is tried on, by what is special about them. A format that cannot hold one leaves it out by name and
 * says why where it calls the suite.
 */
export function sampleRecordings(): Record<string, Recording> {
  const left = wave(1500, 1);
  const right = wave(1500, 2);
  const holed = Float64Array.from(left);
  holed.fill(Number.NaN, 0, 2);
  holed.fill(Number.NaN, 300, 317);
  holed.fill(Number.NaN, 1499);
  const two = [channelOf('left', 'N', left), channelOf('right', 'N', right)];
  const singles = [channelOf('left', 'N', single(left)), channelOf('right', 'N', single(right))];
  const counts = Int16Array.from(left, (value) => Math.round(value * 10) - 9000);
  const extremes = [
    0,
    -0,
    0.1,
    0.30000000000000004,
    5e-324,
    1.7976931348623157e308,
    -2.2250738585072014e-308,
    1e21,
    1e22,
    1e-7,
    -1 / 3,
    123456789012345680,
  ];
  return {
    'two plates': recordingOf(two, { facts: { club: 'Fernwater', athlete: 'Ida Example' } }),
    'single precision': recordingOf(singles),
    'one channel': recordingOf([channelOf('total', 'N', left)], { sampleRate: 600 }),
    'missing samples': recordingOf([channelOf('left', 'N', holed), channelOf('right', 'N', right)], {
      gaps: [
        { start: 0, end: 2 },
        { start: 300, end: 317 },
        { start: 1499, end: 1500 },
      ],
    }),
    'a channel that never measured': recordingOf(
      [channelOf('left', 'N', left), channelOf('right', 'N', new Float64Array(1500).fill(Number.NaN))],
      {
        gaps: [{ start: 0, end: 1500 }],
      },
    ),
    'a rate that is no whole number': recordingOf(two, { sampleRate: 1000 / 3 }),
    'a rate close to a whole number': recordingOf(two, { sampleRate: 1000.2 }),
    'a slow rate': recordingOf(two, { sampleRate: 0.5 }),
    'one sample': recordingOf([channelOf('left', 'N', Float64Array.of(12.5))]),
    'two samples': recordingOf([channelOf('left', 'N', Float64Array.of(12.5, 13))], { sampleRate: 2000 }),
    'whole numbers with scale and offset': recordingOf([
      channelOf('plate 1', 'N', counts, 0.1, -9000),
      channelOf('plate 2', 'V', counts, 10 / 65536, 0),
    ]),
    'extreme values': recordingOf([channelOf('extremes', '', Float64Array.from(extremes))]),
    'units of all kinds': recordingOf(
      [
        'N',
        'kN',
        'mN',
        'kgf',
        '[lbf_av]',
        'V',
        'mV',
        'N.m',
        'N.mm',
        'm',
        'mm',
        's',
        'deg',
        '%',
        '1',
        'm/s2',
        'N/s',
        '',
      ].map((unit, i) => channelOf(`c${i + 1}`, unit, left.slice(0, 20))),
    ),
    'names that look like something else': recordingOf(
      [
        'force_n',
        'time',
        'Fz [N]',
        'left, with comma',
        'say "left"',
        '=1+1',
        '-left',
        "'=x",
        '@a',
        '+b',
        'two\nlines',
        'Kraft links µ',
        'N',
        '12',
        'x []',
        'x/N',
        '__proto__',
      ].map((name) => channelOf(name, '', left.slice(0, 20))),
    ),
    'numbered channels': recordingOf(
      ['trial 1', 'trial 2', 'trial 3'].map((name) => channelOf(name, 'N', right.slice(0, 50))),
    ),
    'many channels': recordingOf(Array.from({ length: 120 }, (_, i) => channelOf(`signal ${i + 1}`, 'V', wave(12, i)))),
    'events and facts': recordingOf(two, {
      events: [
        { label: 'cue', time: 0.25 },
        { label: 'Ende', time: 1.25 },
      ],
      facts: { session: 'Fernwater, morning', note: 'a "quoted" word, and = signs', __proto__x: 'kept' },
      recordedAt: '2026-01-14T16:42:05.250Z' as UtcInstant,
    }),
  };
}
