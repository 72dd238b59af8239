import { cautions } from './cautions.ts';
import { isometricEffort } from './isometric-effort.ts';
import type { Protocol } from './protocol.ts';
import { limbFields } from './setup-fields.ts';

/** What the tests of one limb have of their own. */
interface LimbEffort {
  readonly id: string;
  readonly title: string;
  /** What is done, to follow "A maximal effort of one side: ". */
  readonly effort: string;
  readonly cue: string;
  readonly cautions?: readonly string[];
  readonly source: string;
}

const practice = 'Common practice: load cell or fixed dynamometer, each side in turn, about a minute of rest';

const efforts: readonly LimbEffort[] = [
  {
    id: 'hip-adduction',
    title: 'Hip adduction',
    effort: 'the thigh is pressed inwards against a load cell',
    cue: 'Press your knees together, as hard as you can.',
    cautions: ['Groin pain before or during the effort ends the test; whether to test it again is for a professional.'],
    source: practice,
  },
  {
    id: 'hip-abduction',
    title: 'Hip abduction',
    effort: 'the thigh is pressed outwards against a load cell',
    cue: 'Press outwards, as hard as you can.',
    source: practice,
  },
  {
    id: 'hamstring',
    title: 'Isometric hamstring',
    effort: 'the heel is pressed down or pulled in against a load cell or a plate, hip and knee bent as set up',
    cue: 'Drive your heel down, as hard as you can.',
    cautions: ['Hamstrings can cramp or strain in a maximal effort: build up over submaximal efforts, stop on a pull.'],
    source: 'Ripley et al. 2024, J Sci Sport Exerc, doi 10.1007/s42978-024-00277-w (hip and knee at 90 degrees)',
  },
  {
    id: 'calf',
    title: 'Isometric calf',
    effort: 'the forefoot is pressed down against a load cell or a plate, the knee held as set up',
    cue: 'Push the ball of your foot down, as hard as you can.',
    source: practice,
  },
  {
    id: 'upper-body-pull',
    title: 'Upper-body pull',
    effort: 'a handle on a load cell is pulled towards the body',
    cue: 'Pull, as fast and as hard as you can.',
    cautions: ['Fix the load cell and its line before the first athlete; nobody stands in line with it.'],
    source: practice,
  },
  {
    id: 'upper-body-push',
    title: 'Upper-body push',
    effort: 'a handle on a load cell or a plate is pushed away from the body',
    cue: 'Push, as fast and as hard as you can.',
    cautions: ['Fix the load cell or plate before the first athlete; nobody stands in line with it.'],
    source: practice,
  },
];

const ofSide = (one: LimbEffort, side: 'left' | 'right'): Protocol => ({
  ...isometricEffort,
  id: `${one.id}-${side}`,
  title: `${one.title}, ${side}`,
  summary: `A maximal effort of the ${side} side alone: ${one.effort}.`,
  limbs: side,
  pool: `${one.id}-${side}`,
  cue: one.cue,
  setupFields: limbFields,
  cautions: [...cautions, ...(one.cautions ?? [])],
  sources: [one.source, ...isometricEffort.sources],
});

/** Isometric tests of one limb on load cells, left and right taken in turn; the pair gives the asymmetry. */
export const limbEfforts: readonly Protocol[] = efforts.flatMap((one) => [ofSide(one, 'left'), ofSide(one, 'right')]);
