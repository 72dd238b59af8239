import type { LivePhase, LiveVerdict } from '@sthene/contract';
import { phaseNow } from './live-floor.ts';
import { type Said, type ScriptedEffort, type WallSaid, weight } from './live-messages.ts';
import { givenName, scriptedTurn } from './live-people.ts';

export interface WallMoment {
  readonly phase: LivePhase;
  readonly blank: boolean;
  readonly held: boolean;
  readonly turn: boolean;
  readonly effort: ScriptedEffort;
  readonly verdict: LiveVerdict | undefined;
}

/** The state of the wall: names as the day says, forces above standing. */
export function scriptedWall({ phase, blank, held, turn, effort, verdict }: WallMoment): WallSaid {
  const shown = !blank;
  return {
    type: 'wall',
    blank,
    title: shown ? 'Winter test, first boat' : '',
    open: true,
    marks: [{ rig: 'rig-a', letter: 'A', shape: 'circle' }],
    rigs: shown
      ? [
          {
            rig: 'rig-a',
            letter: 'A',
            shape: 'circle',
            phase,
            held,
            ...(turn ? { who: givenName('p1'), what: scriptedTurn(effort).words, now: phaseNow[phase] } : {}),
            scale: 3000,
            ...(effort.kind === 'submaximal' ? { target: { low: 1450, high: 1620 } } : {}),
            ...(turn ? { best: 2018 } : {}),
            ...(verdict === undefined
              ? {}
              : {
                  result: {
                    trial: verdict.trial,
                    verdict: verdict.verdict,
                    say: verdict.say,
                    highest: 2126,
                    best: true,
                  },
                }),
          },
        ]
      : [],
    next: shown ? [{ who: givenName('p2'), rig: 'rig-a', restLeft: 72 }] : [],
  };
}

/** What a wall hears of what was said: as the station strips it. */
export function forWall(said: Said, script: { readonly phase: LivePhase; wall(): WallSaid }): WallSaid | undefined {
  if (said.type === 'phase' || said.type === 'verdict') return script.wall();
  if (said.type === 'cue') {
    const { id, rig, sound, words, at, expires } = said;
    return { type: 'cue', id, rig, sound, words, at, expires };
  }
  if (said.type === 'countdown') {
    const { rig, of, left, restarted } = said;
    return { type: 'countdown', rig, of, left, restarted };
  }
  if (said.type !== 'envelope' || ['waiting', 'zero', 'stand-still', 'rest'].includes(script.phase)) return undefined;
  const { rig, first, bucket: size, rate: hertz, total } = said;
  return {
    type: 'wall-envelope',
    rig,
    first,
    bucket: size,
    rate: hertz,
    above: total.map((value) => Math.max(0, Math.round((value ?? 0) - weight))),
  };
}
