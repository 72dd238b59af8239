import { barCautions, cautions } from './cautions.ts';
import type { Protocol } from './protocol.ts';
import { singleLegFields, squatFields } from './setup-fields.ts';

const sources = [
  'Lynch et al. 2021, Sports 9(10):140 (knee angles and their reliability)',
  'Bazyler et al. 2015, J Strength Cond Res 29(5):1386-1392 (never pool knee angles)',
  'Comfort et al. 2019, Strength Cond J 41(2):57-79 (cue, trials; from memory)',
];

/** Squat against a fixed bar on both legs. */
export const isometricSquat: Protocol = {
  id: 'isometric-squat',
  version: 1,
  title: 'Isometric squat',
  summary:
    'A long maximal push against a fixed bar on the upper back, one foot on each plate. Knee angles are never pooled.',
  load: 'weight',
  limbs: 'both',
  pool: 'isometric-squat',
  cue: 'Push the ground away as fast and as hard as you can.',
  pullSeconds: { planned: 5, warnUnder: 2, failUnder: 1 },
  restSeconds: 120,
  maximalTrials: { minimum: 2, planned: 3, maximum: 5 },
  setupFields: squatFields,
  cautions: [...cautions, ...barCautions],
  sources,
};

const oneLeg = (side: 'left' | 'right'): Protocol => ({
  ...isometricSquat,
  id: `isometric-squat-${side}`,
  title: `Isometric squat, ${side} leg`,
  summary: `A long maximal push on the ${side} leg; the other foot stays off its plate.`,
  limbs: side,
  pool: `isometric-squat-${side}`,
  setupFields: [...squatFields, ...singleLegFields],
});

/** The squat on one leg. */
export const isometricSquatLeft: Protocol = oneLeg('left');
export const isometricSquatRight: Protocol = oneLeg('right');
