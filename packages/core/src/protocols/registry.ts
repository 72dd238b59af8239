import { registry } from '../registry.ts';
import { isometricEffort } from './isometric-effort.ts';
import {
  countermovementJump,
  countermovementJumpLeft,
  countermovementJumpLoaded,
  countermovementJumpRight,
  dropJump,
  repeatedHops,
  squatJump,
  squatJumpLoaded,
} from './jumps.ts';
import { limbEfforts } from './limb-efforts.ts';
import type { Protocol } from './protocol.ts';
import { imtp, imtpExplosive, imtpLeft, imtpRight } from './pulls.ts';
import { isometricSquat, isometricSquatLeft, isometricSquatRight } from './squats.ts';

/** Every test, in the order they are offered. */
export const protocolRegistry = registry<Protocol>('test', [
  imtp,
  imtpExplosive,
  isometricSquat,
  imtpLeft,
  imtpRight,
  isometricSquatLeft,
  isometricSquatRight,
  isometricEffort,
  ...limbEfforts,
  countermovementJump,
  squatJump,
  dropJump,
  repeatedHops,
  countermovementJumpLoaded,
  squatJumpLoaded,
  countermovementJumpLeft,
  countermovementJumpRight,
]);
