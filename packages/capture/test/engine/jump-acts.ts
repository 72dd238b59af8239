import { protocolRegistry, runningRules } from '@sthene/core';
import type { EngineConfig, TurnPlan } from '../../src/engine/index.ts';
import { begin, cue } from './acts.ts';
import type { JumpCurve } from './jumper.ts';
import { type Athlete, Stage } from './stage.ts';

export const jumpTest = (id: string) => {
  const protocol = protocolRegistry.get(id);
  if (protocol === undefined) throw new Error(`There is no test "${id}".`);
  return protocol;
};

/** What an engine of a jump test is made with, with short rests. */
export const jumpConfig = (id: string, config: Partial<EngineConfig> = {}): Partial<EngineConfig> => {
  const protocol = jumpTest(id);
  const running = { ...runningRules(protocol), rest: { afterSubmaximal: 5, minimum: 8, maximum: 600 } };
  return { protocol, running, ...config };
};

/** A stage of a jump test with an athlete who is weighed and warm. */
export function jumpStage(
  id: string,
  who: Athlete,
  config: Partial<EngineConfig> = {},
  plan: Partial<TurnPlan> = {},
  range = 10_000,
): Stage {
  const stage = new Stage(jumpConfig(id, config), 1000, 20, range);
  stage.wait(1.5);
  begin(stage, who, { warmUpDone: 2, ...plan });
  return stage;
}

/** Plays a jump under the feet of whoever is on the stage, or comes from a box. */
export function jump(stage: Stage, who: Athlete, { total }: JumpCurve): void {
  const right = total.map((force) => force * who.shareRight);
  const left = total.map((force) => force * (1 - who.shareRight));
  stage.playOver(left, right);
}

/** Guided: from the setup to the sounded cue. */
export function cued(stage: Stage): void {
  stage.order({ order: 'advance' });
  stage.wait(2.5);
  cue(stage);
}
