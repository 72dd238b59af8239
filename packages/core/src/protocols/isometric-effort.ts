import { cautions } from './cautions.ts';
import type { Protocol } from './protocol.ts';
import { channelFields } from './setup-fields.ts';

/** Any isometric force or torque without body weight: a pinch, a knee extension on a dynamometer. */
export const isometricEffort: Protocol = {
  id: 'isometric-effort',
  version: 1,
  title: 'Isometric effort',
  summary: 'A maximal effort on one force or torque channel that carries no body weight.',
  load: 'none',
  limbs: 'any',
  pool: 'isometric-effort',
  cue: 'As fast and as hard as you can.',
  // Proposals without a published number.
  pullSeconds: { planned: 3, warnUnder: 1, failUnder: 0.5 },
  restSeconds: 60,
  maximalTrials: { minimum: 2, planned: 3, maximum: 5 },
  parameters: { unit: 'N', baselineSeconds: 1 },
  setupFields: channelFields,
  cautions,
  sources: ['Maffiuletti et al. 2016, Eur J Appl Physiol 116:1091-1116 (single-joint rate of force development)'],
};

/**
 * The effort in another unit or with another baseline length, for one rig.
 *
 * @param unit UCUM code of force or torque
 * @param baselineSeconds length of the quiet window, s
 */
export const isometricEffortIn = (unit: string, baselineSeconds: number): Protocol => ({
  ...isometricEffort,
  parameters: { unit, baselineSeconds },
});
