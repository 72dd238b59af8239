import { expect, it } from 'vitest';
import { athlete, planOf, Stage } from './stage.ts';

const wren = athlete('p-wren');

it('takes a guided turn from zero to rest', () => {
  const stage = new Stage();
  stage.wait(2);
  stage.order({ order: 'next-athlete', next: planOf(wren, { warmUpDone: 2 }) });
  expect(stage.phase).toBe('zero');
  expect(stage.untilPhase('stand-still', 3)).toBe(true);
  stage.stepOn(wren);
  expect(stage.untilPhase('set-up', 6)).toBe(true);
  const [weighing] = stage.of('weighing');
  expect(weighing?.weighing.bodyWeight).toBeGreaterThan(717);
  expect(weighing?.weighing.bodyWeight).toBeLessThan(723);
  stage.wait(1);
  stage.order({ order: 'advance' });
  expect(stage.phase).toBe('ready');
  stage.wait(2);
  stage.order({ order: 'cue-now' });
  expect(stage.phase).toBe('cue');
  expect(stage.until('cue-request', 4)).toBe(true);
  stage.sound();
  stage.pull({}, 5);
  expect(stage.phase).toBe('verdict');
  const [trial] = stage.closed;
  expect(trial).toMatchObject({ person: 'p-wren', trial: 1, effort: 'maximal', ended: 'released', reasons: [] });
  expect(trial?.result.checks.early_pull?.status).toBe('pass');
  expect(
    Object.entries(trial?.result.checks ?? {}).filter(([, c]) => c.status === 'warn' || c.status === 'fail'),
  ).toEqual([]);
  expect(trial?.verdict).toBe('counts');
  expect(stage.of('count').map(({ number }) => number)).toEqual([3, 2, 1]);
  stage.order({ order: 'advance' });
  expect(stage.phase).toBe('rest');
});
