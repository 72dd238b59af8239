import type { LivePhase, RigFloor } from '@sthene/contract';
import { type ScriptedEffort, weight } from './live-messages.ts';
import { scriptedTurn } from './live-people.ts';

export const phaseNow: Record<LivePhase, string> = {
  waiting: 'Call the next athlete.',
  zero: 'Step off the plates',
  'stand-still': 'Stand still',
  'set-up': 'Confirm the setup.',
  ready: 'Ready. Wait for the cue',
  cue: 'Ready. Wait for the cue',
  pull: 'Keep pushing',
  jump: 'Jump',
  verdict: 'Rest',
  rest: 'Rest',
};

export interface FloorMoment {
  readonly phase: LivePhase;
  readonly since: number;
  readonly sample: number;
  readonly trial: number;
  readonly turn: boolean;
  readonly guided: boolean;
  readonly armed: boolean;
  readonly held: boolean;
  readonly effort: ScriptedEffort;
}

/** What goes on at the made-up rig. */
export function scriptedFloor(moment: FloorMoment): RigFloor {
  const { phase, since, sample, trial, turn, guided, armed, held, effort } = moment;
  const weighed = turn && !['waiting', 'zero', 'stand-still'].includes(phase);
  const still = phase === 'stand-still' ? Math.min(1, (sample - since) / 3000) : 0;
  const now = { code: phase, words: phaseNow[phase] };
  return {
    rig: 'rig-a',
    phase,
    since,
    ...(turn ? { turn: scriptedTurn(effort), trial: `t1-${trial}`, say: now } : {}),
    guided,
    armed,
    held,
    forces: 'total',
    now,
    ...(turn
      ? {
          weighing: weighed
            ? { progress: 1, done: true, bodyWeight: weight, leftShare: 0.492 }
            : { progress: still, done: false },
          best: 2760,
        }
      : {}),
    ...(weighed ? { tension: { low: weight - 35, high: weight + 35 } } : {}),
    ...(weighed && effort.kind === 'submaximal' ? { target: { low: weight + 1450, high: weight + 1620 } } : {}),
    scale: { low: 0, high: 3500 },
  };
}
