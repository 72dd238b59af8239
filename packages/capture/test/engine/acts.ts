import { type PullSpec, runningRules } from '@sthene/core';
import type { EngineConfig, TurnPlan } from '../../src/engine/index.ts';
import { imtpProtocol } from './core.ts';
import { type Athlete, planOf, Stage } from './stage.ts';

/** Rules with short rests, so that a day fits into a test. */
export const quickRules = {
  ...runningRules(imtpProtocol),
  rest: { afterSubmaximal: 5, minimum: 8, maximum: 600 },
};

/** From the call to the setup: zero, step on, weigh. */
export function begin(stage: Stage, who: Athlete, plan: Partial<TurnPlan> = {}): void {
  call(stage, who, plan);
  stage.stepOn(who);
  if (!stage.wait(10, () => stage.of('weighing').length > 0 && stage.phase !== 'stand-still')) {
    throw new Error('was not weighed');
  }
}

/** From the call to empty, zeroed plates. */
export function call(stage: Stage, who: Athlete, plan: Partial<TurnPlan> = {}): void {
  stage.order({ order: 'next-athlete', next: planOf(who, plan) });
  if (!stage.untilPhase('stand-still', 6)) throw new Error('was not zeroed');
}

/** A stage with an athlete who is weighed and warm. */
export function staged(
  who: Athlete,
  plan: Partial<TurnPlan> = {},
  config: Partial<EngineConfig> = {},
  range = 10_000,
): Stage {
  const stage = new Stage({ running: quickRules, ...config }, 1000, 20, range);
  stage.wait(1.5);
  begin(stage, who, { warmUpDone: 2, ...plan });
  return stage;
}

/** Guided: from the setup to a steady tension. */
export function ready(stage: Stage): void {
  stage.order({ order: 'advance' });
  stage.wait(1.5);
}

/** Guided: from a steady tension to the sounded cue. */
export function cue(stage: Stage): void {
  stage.order({ order: 'cue-now' });
  if (!stage.until('cue-request', 5)) throw new Error('no cue');
  stage.sound();
}

/** Guided: from the setup through one pull to its verdict. */
export function pullGuided(stage: Stage, spec: PullSpec = {}, seed = 5): void {
  ready(stage);
  cue(stage);
  stage.pull(spec, seed);
}

/** Submaximal: as hard as the phase asks for. */
export function aimed(stage: Stage, share = 1): PullSpec {
  const phase = stage.of('phase').findLast(({ effort }) => effort?.target !== undefined);
  const target = phase?.effort?.target;
  if (target === undefined) throw new Error('no target');
  const weight = stage.of('weighing').at(-1)!.weighing.bodyWeight;
  return { netForce: (target.aim - weight) * share, hold: 3 };
}
