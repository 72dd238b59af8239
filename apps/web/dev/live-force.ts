import type { LivePhase } from '@sthene/contract';
import { type ScriptedEffort, weight } from './live-messages.ts';

interface ForceMoment {
  readonly phase: LivePhase;
  readonly turn: boolean;
  readonly effort: ScriptedEffort;
  /** Seconds since the phase began. */
  readonly seconds: number;
}

/** Total force of the made-up athlete, N; the same calls give the same forces. */
export function scriptedForce(): (moment: ForceMoment) => number {
  let state = 7;
  return ({ phase, turn, effort, seconds: t }) => {
    state = (state * 16_807) % 2_147_483_647;
    const noise = (state / 2_147_483_647 - 0.5) * 8;
    if (!turn || phase === 'zero') return noise / 3;
    if (phase === 'pull') {
      const top = effort.kind === 'maximal' ? 2868 : weight + 1530;
      const held = weight + (top - weight) * (1 - Math.exp(-((t / 0.19) ** 1.5)));
      return t > 3.4 ? weight + (held - weight) * Math.exp(-(t - 3.4) / 0.08) : held + noise + 7 * Math.sin(t * 55);
    }
    const standing = weight + 3 * Math.sin(t * 2.6) + noise;
    return phase === 'ready' || phase === 'cue' ? standing + 18 : standing;
  };
}
