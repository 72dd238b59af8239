import { describe, expect, it } from 'vitest';
import { cue, ready, staged } from './acts.ts';
import { athlete, planOf, Stage } from './stage.ts';

const wren = athlete('p-wren');

describe('a machine that woke up', () => {
  it('voids the count and takes the zero again before the next cue', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(1);
    stage.order({ order: 'woke-up', seconds: 12 });
    expect(stage.of('count-void')).toHaveLength(1);
    expect(stage.alerted('woke-up')).toBe(true);
    expect(stage.phase).toBe('zero');
    stage.wait(5);
    expect(stage.of('zero')).toHaveLength(1);
    expect(stage.of('cue-request')).toEqual([]);
    stage.stepOff();
    expect(stage.untilPhase('stand-still', 4)).toBe(true);
    expect(stage.of('zero')).toHaveLength(2);
  });

  it('gives no cue before the rate was checked', () => {
    const stage = staged(wren);
    stage.order({ order: 'woke-up', seconds: 5 });
    stage.stepOff();
    stage.untilPhase('stand-still', 4);
    stage.stepOn(wren);
    stage.wait(8, () => stage.phase === 'set-up');
    expect(stage.refusal({ order: 'advance' })).toBe('rate-unchecked');
    stage.order({ order: 'rate-checked', same: false });
    expect(stage.alerted('rate-changed')).toBe(true);
    expect(stage.refusal({ order: 'advance' })).toBe('rate-unchecked');
    stage.order({ order: 'rate-checked', same: true });
    expect(stage.refusal({ order: 'advance' })).toBeUndefined();
    expect(stage.refusal({ order: 'rate-checked', same: true })).toBe('not-now');
  });

  it('ends a pull that ran through it, which does not count', () => {
    const stage = staged(wren);
    ready(stage);
    cue(stage);
    stage.wait(1, undefined, (t) => 1400 * Math.min(1, t / 0.3));
    stage.order({ order: 'woke-up', seconds: 3 });
    expect(stage.closed).toMatchObject([{ ended: 'signal-lost', verdict: 'repeat' }]);
    expect(stage.phase).toBe('zero');
  });

  it('asks the next turn too, when nobody was on the rig', () => {
    const stage = new Stage();
    stage.wait(1.5);
    stage.order({ order: 'woke-up', seconds: 5 });
    stage.order({ order: 'next-athlete', next: planOf(wren, { warmUpDone: 2 }) });
    stage.untilPhase('stand-still', 4);
    stage.stepOn(wren);
    stage.wait(8, () => stage.phase === 'set-up');
    expect(stage.refusal({ order: 'advance' })).toBe('rate-unchecked');
  });
});
