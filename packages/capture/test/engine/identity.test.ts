import { expect, it } from 'vitest';
import { begin, call, pullGuided, quickRules, ready, staged } from './acts.ts';
import { athlete, planOf, Stage } from './stage.ts';

const wren = athlete('p-wren');
const heron = athlete('p-heron', { bodyWeight: 860 });

it('asks before the cue when the weight is more than 3 % off the last one, and not below', () => {
  for (const [weight, asks] of [
    [1.025, false],
    [0.975, false],
    [1.035, true],
    [0.965, true],
  ] as const) {
    const stage = new Stage();
    stage.wait(1.5);
    call(stage, wren, { warmUpDone: 2 });
    stage.stepOn({ ...wren, bodyWeight: weight * wren.bodyWeight });
    stage.wait(5);
    expect(stage.of('question').length, String(weight)).toBe(asks ? 1 : 0);
  }
});

it('goes no further before the answer, and "no" ends the turn', () => {
  const stage = new Stage();
  stage.wait(1.5);
  call(stage, wren, { warmUpDone: 2 });
  stage.stepOn(heron);
  stage.wait(5);
  const [question] = stage.of('question');
  expect(question).toMatchObject({
    code: 'is-this-the-athlete',
    answers: ['yes', 'no', 'not-sure'],
    data: { because: 'body-weight', person: 'p-wren' },
  });
  expect(stage.refusal({ order: 'advance' })).toBe('question-open');
  stage.order({ order: 'answer', question: question!.id, answer: 'no', by: 'u-operator' });
  expect(stage.phase).toBe('waiting');
  expect(stage.of('turn-ended')).toMatchObject([{ because: 'wrong-person' }]);
  expect(stage.of('cue-request')).toEqual([]);
});

it('asks when the feet share unusually, and goes on with a yes', () => {
  const stage = new Stage();
  stage.wait(1.5);
  call(stage, wren, { warmUpDone: 2, usualShareRight: 50 });
  stage.stepOn({ ...wren, shareRight: 0.6 });
  stage.wait(5);
  const [question] = stage.of('question');
  expect(question).toMatchObject({ data: { because: 'standing-share' } });
  stage.order({ order: 'answer', question: question!.id, answer: 'yes', by: 'u-operator' });
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  expect(stage.phase).toBe('ready');
});

it('asks when the bar stands elsewhere', () => {
  const stage = new Stage();
  stage.wait(1.5);
  begin(stage, wren, { warmUpDone: 2, barMoved: { last: '14', now: '11' } });
  expect(stage.of('question')).toMatchObject([{ data: { because: 'bar-moved', barLast: '14', barNow: '11' } }]);
  expect(stage.refusal({ order: 'advance' })).toBe('question-open');
});

it('asks once a turn when the tension is not the usual one, and gives no cue before the answer', () => {
  const stage = staged(wren, { usualTension: -30 });
  ready(stage);
  expect(stage.refusal({ order: 'cue-now' })).toBe('question-open');
  const [question] = stage.of('question');
  expect(question).toMatchObject({ data: { because: 'tension', usualTension: -30 } });
  stage.wait(3);
  expect(stage.refusal({ order: 'cue-now' })).toBe('question-open');
  expect(stage.of('question')).toHaveLength(1);
  stage.order({ order: 'answer', question: question!.id, answer: 'yes', by: 'u-operator' });
  expect(stage.refusal({ order: 'cue-now' })).toBeUndefined();
  expect(stage.phase).toBe('cue');
  const usual = staged(wren, { usualTension: 10 });
  ready(usual);
  expect(usual.refusal({ order: 'cue-now' })).toBeUndefined();
});

it('asks before a hands-free count too', () => {
  const stage = new Stage({ running: quickRules, mode: 'hands-free' });
  stage.wait(1.5);
  begin(stage, wren, { warmUpDone: 2, usualTension: 33 });
  stage.order({ order: 'arm' });
  stage.wait(20);
  expect(stage.of('question')).toMatchObject([{ data: { because: 'tension' } }]);
  expect(stage.of('count')).toEqual([]);
});

it('goes on when nobody is sure, and looks at every effort of the turn again', () => {
  const stage = new Stage({ running: quickRules });
  stage.wait(1.5);
  call(stage, wren, { warmUpDone: 2 });
  stage.stepOn({ ...heron, netForce: wren.netForce });
  stage.wait(5);
  const question = stage.of('question')[0]!.id;
  stage.order({ order: 'answer', question, answer: 'not-sure', by: 'station' });
  pullGuided(stage);
  expect(stage.closed).toMatchObject([{ person: 'p-wren', verdict: 'look-again', reasons: ['identity-unsure'] }]);
  expect(stage.of('verdict')[0]?.correction?.words).toBe('Not your fault: checked later');
  // The weight of somebody who may be another is not learnt.
  stage.stepOff();
  stage.order({ order: 'next-athlete', next: planOf(heron, { warmUpDone: 2 }) });
  stage.wait(2);
  stage.order({ order: 'next-athlete', next: planOf(wren, { warmUpDone: 2 }) });
  stage.untilPhase('stand-still', 6);
  stage.stepOn(heron);
  stage.wait(5);
  expect(stage.of('question').filter(({ data }) => data?.because === 'body-weight')).toHaveLength(2);
});

it('gives somebody nobody has announced no effort before it is known who they are', () => {
  const stage = new Stage({ running: quickRules, mode: 'hands-free' });
  stage.wait(1.5);
  call(stage, athlete('walk-in'), { unknown: true, warmUpDone: 0 });
  stage.stepOn(heron);
  stage.order({ order: 'arm' });
  stage.wait(30);
  expect(stage.phase).toBe('set-up');
  expect(stage.refusal({ order: 'advance' })).toBe('not-identified');
  expect(stage.of('count')).toEqual([]);
  stage.order({ order: 'identify', as: planOf(heron, { warmUpDone: 1 }) });
  expect(stage.untilPhase('cue', 10)).toBe(true);
  expect(stage.of('phase').at(-1)).toMatchObject({ person: 'p-heron', effort: { target: { share: 0.75 } } });
});
