import type { Machine } from './machine.ts';

/** Force limits of the present turn, in the unit of the test. */
export interface ForceLimits {
  readonly low: number;
  readonly high: number;
  readonly steadyRange: number;
  /** Above this a pull begins. */
  readonly pull: number;
}

/**
 * Tension band, steadiness and the level of a pull. Without body weight limits in newtons mean nothing: a pull is ten SDs of the
 * zero, or a tenth of the own best; half of it is the band.
 */
export function limitsOf(machine: Machine): ForceLimits {
  const { base, rules, turn, weighted, jumpTest } = machine;
  if (jumpTest !== undefined) return stanceOf(machine, base);
  if (!weighted) {
    const pull = Math.max(10 * (turn?.zeroSd ?? 0), 0.1 * (turn?.person.best ?? 0));
    return { low: -pull / 2, high: pull / 2, steadyRange: pull, pull };
  }
  const { below, above, steadyRange } = rules.ready;
  return {
    low: base - below,
    high: base + above,
    steadyRange,
    pull: base + Math.max(rules.pull.rise, rules.pull.riseShare * base),
  };
}

/** Before a jump: standing at body weight, with a load at more than that, and for a jump from a box not on the plates at all. */
function stanceOf(machine: Machine, base: number): ForceLimits {
  const { below, above, steadyRange } = machine.rules.ready;
  const level = machine.fromBox ? 0 : base;
  const loaded = machine.config.protocol.jump?.loaded === true;
  return {
    low: level - below,
    high: loaded ? Number.POSITIVE_INFINITY : level + above,
    steadyRange,
    pull: Number.POSITIVE_INFINITY,
  };
}
