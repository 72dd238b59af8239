import { barCautions, cautions, strapCautions } from './cautions.ts';
import type { Protocol } from './protocol.ts';
import { pullFields, singleLegFields } from './setup-fields.ts';

const sources = [
  'Comfort et al. 2019, Strength Cond J 41(2):57-79 (posture, cue, pull length, trials; from memory)',
  'Beckham et al. 2018, J Strength Cond Res 32(1):48-56 (hip angle)',
  'Haff et al. 2015, J Strength Cond Res 29(2):386-395 (two minutes of rest)',
];

/** Isometric mid-thigh pull on both legs. */
export const imtp: Protocol = {
  id: 'imtp',
  version: 1,
  title: 'Isometric mid-thigh pull',
  summary: 'A long maximal pull on a fixed bar at mid-thigh, one foot on each plate.',
  load: 'weight',
  limbs: 'both',
  pool: 'imtp-long',
  cue: 'Push the ground away as fast and as hard as you can.',
  pullSeconds: { planned: 5, warnUnder: 2, failUnder: 1 },
  restSeconds: 120,
  maximalTrials: { minimum: 2, planned: 3, maximum: 5 },
  setupFields: pullFields,
  cautions: [...cautions, ...barCautions, ...strapCautions],
  sources,
};

/** A short pull for rates of force development; never averaged with the long one. */
export const imtpExplosive: Protocol = {
  ...imtp,
  id: 'imtp-explosive',
  title: 'Isometric mid-thigh pull, explosive',
  summary: 'A pull of about one second, as fast as possible, for rates of force development. A pool of its own.',
  pool: 'imtp-explosive',
  cue: 'Fast.',
  // Limits without a published number: long enough for force at 300 ms, short enough for a one-second pull.
  pullSeconds: { planned: 1, warnUnder: 0.5, failUnder: 0.3 },
  restSeconds: 60,
  maximalTrials: { minimum: 3, planned: 5, maximum: 10 },
  sources: [
    ...sources,
    'Sahaly et al. 2001, Eur J Appl Physiol 85:345-350 (the cue "fast" raises the rate of force development)',
    'Jaafar and Lajili 2018, J Hum Kinet 65:21-34 (the same, knee extension)',
  ],
};

const oneLeg = (side: 'left' | 'right'): Protocol => ({
  ...imtp,
  id: `imtp-${side}`,
  title: `Isometric mid-thigh pull, ${side} leg`,
  summary: `A long maximal pull on the ${side} leg; the other foot stays off its plate.`,
  limbs: side,
  pool: `imtp-${side}`,
  setupFields: [...pullFields, ...singleLegFields],
  sources: [...sources, 'McPhail et al. 2021, Front Sports Act Living 3:715833 (pulls on one leg)'],
});

/** The pull on one leg. */
export const imtpLeft: Protocol = oneLeg('left');
export const imtpRight: Protocol = oneLeg('right');
