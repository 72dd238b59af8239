import type { Forces } from '../recording/forces.ts';
import type { Motion } from './motion.ts';

/**
 * Height from the net work on the centre of mass: (1 / (m g)) times the trapezoidal integral of (F - W) ds between two samples.
 *
 * With positions from the same integration it equals the height from impulse and momentum, to rounding.
 *
 * @returns height in m and net work in J
 * Source: Linthorne 2001, Am J Phys 69(11):1198-1204.
 */
export function workEnergyHeight(
  { total: force }: Pick<Forces, 'total'>,
  motion: Motion,
  from: number,
  to: number,
  gravity: number,
): { readonly height: number; readonly work: number } {
  const { position, start, weight, mass } = motion;
  let work = 0;
  let f = force[from] as number;
  let s = position[from - start] as number;
  for (let i = from + 1; i <= to; i++) {
    const nextF = force[i] as number;
    const nextS = position[i - start] as number;
    work += (0.5 * (f + nextF) - weight) * (nextS - s);
    f = nextF;
    s = nextS;
  }
  return { height: work / (mass * gravity), work };
}

/**
 * Peak power of a jump from its height alone, W: 60.7 h + 45.3 m - 2055. For comparison with tests without a force plate.
 *
 * @param height cm
 * @param mass kg
 * Source: Sayers et al. 1999, Med Sci Sports Exerc 31:572-577 (from memory).
 */
export const sayersPeakPower = (height: number, mass: number): number => 60.7 * height + 45.3 * mass - 2055;
