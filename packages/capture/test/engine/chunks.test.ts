import { expect, it } from 'vitest';
import { begin, cue, pullGuided, quickRules, ready, staged } from './acts.ts';
import { seededRandom } from './core.ts';
import { athlete, replay, Stage } from './stage.ts';

const wren = athlete('p-wren');
const heron = athlete('p-heron', { bodyWeight: 850, netForce: 1700 });

/** A short day with something of everything. */
function shortDay(rate: number): Stage {
  const stage = new Stage({ running: quickRules }, rate);
  stage.wait(1.37);
  begin(stage, wren, { warmUpDone: 2 });
  pullGuided(stage, {}, 3);
  stage.order({ order: 'advance' });
  stage.stepOff();
  stage.wait(1.5);
  begin(stage, heron, { warmUpDone: 2 });
  ready(stage);
  stage.order({ order: 'cue-now' });
  stage.wait(1.013);
  stage.order({ order: 'hold' });
  stage.wait(0.5);
  stage.order({ order: 'resume' });
  stage.wait(1.5);
  cue(stage);
  stage.pull({ fault: 'gap' }, 8);
  stage.wait(1);
  stage.stepOff();
  stage.wait(2);
  return stage;
}

it('gives the same outputs at the same samples, however the samples were cut', () => {
  const stage = shortDay(1000);
  expect(stage.closed.length).toBe(2);
  const random = seededRandom(4, 1);
  const cuts: [string, () => number][] = [
    ['one sample', () => 1],
    ['seven', () => 7],
    ['five hundred', () => 500],
    ['any', () => 1 + Math.floor(random.between(0, 700))],
  ];
  for (const [name, length] of cuts) {
    const outputs = replay(stage, { running: quickRules }, length);
    expect(outputs.length, name).toBe(stage.outputs.length);
    expect(outputs, name).toEqual(stage.outputs);
  }
});

it('does so at a rate that makes odd blocks, too', () => {
  const stage = shortDay(1234);
  expect(replay(stage, { running: quickRules }, () => 333)).toEqual(stage.outputs);
});

it('replays to the same day twice', () => {
  const stage = staged(wren);
  pullGuided(stage);
  expect(replay(stage, { running: quickRules }, () => 20)).toEqual(replay(stage, { running: quickRules }, () => 20));
});
