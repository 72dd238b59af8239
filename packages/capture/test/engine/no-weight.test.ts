import { isometricEffortIn, seededRandom } from '@sthene/core';
import { expect, it } from 'vitest';
import { quickRules } from './acts.ts';
import { Stage } from './stage.ts';

it('runs a torque channel without body weight: zero, setup, ready, cue, effort', () => {
  const protocol = isometricEffortIn('N', 0.5);
  const stage = new Stage({ protocol, running: { ...quickRules, test: protocol.id } });
  stage.wait(1.5);
  stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false, warmUpDone: 2 } });
  expect(stage.untilPhase('set-up', 4)).toBe(true);
  expect(stage.of('weighing')).toEqual([]);
  stage.order({ order: 'advance' });
  stage.wait(1.5);
  expect(stage.refusal({ order: 'cue-now' })).toBeUndefined();
  expect(stage.until('cue-request', 5)).toBe(true);
  stage.sound();
  const random = seededRandom(3, 3);
  stage.wait(0.4);
  stage.wait(3, undefined, (t) => 60 * (1 - Math.exp(-t / 0.1)) + 0.2 * random.gaussian());
  stage.wait(1.5);
  expect(stage.closed).toMatchObject([{ ended: 'released', effort: 'maximal' }]);
  const [trial] = stage.closed;
  expect(trial?.bodyWeight).toBeUndefined();
  const peak = trial?.result.metrics.peak_force;
  expect(peak && 'value' in peak && peak.value).toBeGreaterThan(58);
  expect(peak && 'value' in peak && peak.value).toBeLessThan(65);
});
