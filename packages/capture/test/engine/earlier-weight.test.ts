import { expect, it } from 'vitest';
import type { EarlierWeighing, EngineOutput, TurnPlan } from '../../src/engine/index.ts';
import { type Athlete, athlete, planOf, Stage } from './stage.ts';

const wren = athlete('p-wren');
const from = { test: 'countermovement-jump', trial: 't-1' };

/** The weighing of an earlier test on these plates, with the zeros the plates had then. */
const weighed = (who: Athlete, more: Partial<EarlierWeighing> = {}): EarlierWeighing => ({
  bodyWeight: who.bodyWeight,
  seconds: [who.bodyWeight - 0.4, who.bodyWeight, who.bodyWeight + 0.4],
  zeros: { left: 0, right: 0 },
  from,
  here: false,
  ...more,
});

const begin = (stage: Stage, more: Partial<TurnPlan>): void => {
  stage.order({ order: 'next-athlete', next: planOf(wren, more) });
};
const earlier = ({ outputs }: Stage) =>
  outputs.flatMap((one) => (one.kind === 'earlier-weight' ? [one.stands ? 'stands' : one.because] : []));
const phases = ({ outputs }: Stage) => outputs.flatMap((one) => (one.kind === 'phase' ? [one.phase] : []));
const said = (code: string) => (out: EngineOutput[]) => out.some((one) => one.kind === 'guidance' && one.code === code);

it('goes from the zero to the setup where the weight of the test before stands', () => {
  const stage = new Stage();
  stage.wait(1);
  begin(stage, { weighed: weighed(wren) });
  expect(stage.wait(4, said('step-on'))).toBe(true);
  expect(earlier(stage)).toEqual(['stands']);
  expect(stage.phase).toBe('set-up');
  // Nothing goes on before somebody who weighs that has been seen.
  expect(stage.refusal({ order: 'advance' })).toBe('not-on-plates');
  stage.stepOn(wren);
  stage.wait(2);
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  expect(phases(stage)).not.toContain('stand-still');
});

it('weighs again where the zero has moved by more than is held', () => {
  for (const [moved, becomes] of [
    [4, 'stands'],
    [7, 'zero-moved'],
  ] as const) {
    const stage = new Stage();
    stage.offset = [moved, 0];
    stage.wait(1);
    begin(stage, { weighed: weighed(wren) });
    stage.wait(4);
    expect(earlier(stage)).toEqual([becomes]);
    expect(stage.phase).toBe(becomes === 'stands' ? 'set-up' : 'stand-still');
  }
});

it('weighs whoever steps on with another weight, and asks who it is', () => {
  const stage = new Stage();
  stage.wait(1);
  begin(stage, { weighed: weighed(wren) });
  stage.wait(4, said('step-on'));
  stage.stepOn(athlete('p-wren', { bodyWeight: 1.05 * wren.bodyWeight }));
  // Somebody is on the plates, but not known yet to be who was weighed.
  expect(stage.refusal({ order: 'advance' })).toBe('not-identified');
  stage.wait(4, () => stage.phase === 'stand-still');
  expect(earlier(stage)).toEqual(['stands', 'weight-differs']);
  stage.wait(6);
  expect(stage.outputs.some((one) => one.kind === 'question' && one.code === 'is-this-the-athlete')).toBe(true);
});

it('leaves somebody on the plates who goes on with the next test, and keeps their zero', () => {
  const stage = new Stage();
  // Plates that read something when empty: the test before took it as zero.
  stage.offset = [12, -9];
  stage.wait(1);
  stage.stepOn(wren);
  stage.wait(2);
  begin(stage, { weighed: weighed(wren, { here: true, zeros: { left: 12, right: -9 } }) });
  expect(phases(stage).filter((phase) => phase !== 'waiting')).toEqual(['set-up']);
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  stage.wait(2);
  const live = stage.outputs.findLast((one) => one.kind === 'live');
  expect(live?.kind === 'live' && Math.abs(live.total - wren.bodyWeight)).toBeLessThan(10);
});

it('lets the newest zero stand for somebody who stays, where one was taken after the weighing', () => {
  const stage = new Stage();
  stage.offset = [12, -9];
  stage.wait(1);
  stage.stepOn(wren);
  stage.wait(2);
  // Weighed when the plates showed 40 N less; a later test has zeroed them since.
  const before = { left: -8, right: -29 };
  begin(stage, { weighed: weighed(wren, { here: true, zeros: before }), zeros: { left: 12, right: -9 } });
  stage.wait(2);
  const live = stage.outputs.findLast((one) => one.kind === 'live');
  expect(live?.kind === 'live' && Math.abs(live.total - wren.bodyWeight)).toBeLessThan(10);
});

it('never calls a rest from another test too long', () => {
  const stage = new Stage();
  stage.wait(1);
  stage.stepOn(wren);
  stage.wait(2);
  begin(stage, { weighed: weighed(wren, { here: true }), rest: { elapsed: 20, minimum: 22, maximum: 24 } });
  stage.wait(8);
  const told = stage.outputs.flatMap((one) => (one.kind === 'rest' ? [one.state] : []));
  expect(told).toEqual(['began', 'over']);
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
});

it('rests on from the test before, and says that another test follows', () => {
  const stage = new Stage();
  stage.wait(1);
  stage.stepOn(wren);
  stage.wait(2);
  const rest = { elapsed: 20, minimum: 25, maximum: 600 };
  begin(stage, { weighed: weighed(wren, { here: true }), rest, goesOn: 'here' });
  expect(stage.phase).toBe('rest');
  expect(stage.refusal({ order: 'advance' })).toBe('rest-not-over');
  stage.wait(4.5);
  expect(stage.refusal({ order: 'advance' })).toBe('rest-not-over');
  stage.wait(0.6);
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  expect(stage.phase).toBe('set-up');
  stage.order({ order: 'skip' });
  stage.order({ order: 'skip' });
  stage.order({ order: 'skip' });
  expect(stage.outputs.some((one) => one.kind === 'guidance' && one.code === 'next-test')).toBe(true);
});
