import { describe, expect, it } from 'vitest';
import { type Order, refusals } from '../../src/engine/index.ts';
import { aimed, begin, cue, pullGuided, quickRules, ready, staged } from './acts.ts';
import { athlete, planOf, Stage } from './stage.ts';

const wren = athlete('p-wren');
const heron = athlete('p-heron', { bodyWeight: 860 });

describe('addresses', () => {
  it('refuses what is late or meant for something else', () => {
    const stage = staged(wren);
    expect(stage.refusal({ order: 'advance' }, { late: 1001 })).toBe('expired');
    expect(stage.refusal({ order: 'advance' }, { turn: 7 })).toBe('wrong-turn');
    expect(stage.refusal({ order: 'advance' }, { trial: 9 })).toBe('wrong-trial');
    expect(stage.refusal({ order: 'advance' }, { phase: 'rest' })).toBe('wrong-phase');
    expect(stage.phase).toBe('set-up');
    expect(stage.refusal({ order: 'advance' }, { late: 999 })).toBeUndefined();
    expect(stage.phase).toBe('ready');
  });

  it('takes an expiry in samples too', () => {
    const stage = staged(wren);
    const command = { turn: 1, trial: 1, phase: 'set-up', at: 0n as never, order: 'advance' } as const;
    const late = stage.input({ kind: 'command', command: { ...command, expires: stage.next - 1 } });
    expect(late).toMatchObject([{ kind: 'refused', code: 'expired' }]);
    stage.input({ kind: 'command', command: { ...command, expires: stage.next } });
    expect(stage.phase).toBe('ready');
  });

  it('never keeps a cue for later', () => {
    const stage = staged(wren);
    ready(stage);
    stage.wait(0.6, undefined, () => 90);
    expect(stage.refusal({ order: 'cue-now' })).toBe('not-steady');
    stage.wait(3);
    expect(stage.phase).toBe('ready');
    expect(stage.of('count')).toEqual([]);
  });

  it('always stops, however slow the link and wherever the phase is', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(1.2);
    expect(stage.refusal({ order: 'abort' }, { phase: 'set-up', trial: 5, late: 5000 })).toBeUndefined();
    expect(stage.phase).toBe('set-up');
    expect(stage.of('count-void')).toMatchObject([{ because: 'aborted' }]);
    expect(stage.refusal({ order: 'abort' }, { turn: 0 })).toBe('wrong-turn');
  });
});

it('holds: freezes the turn, voids the count, and goes on where it was', () => {
  const stage = staged(wren);
  ready(stage);
  stage.order({ order: 'cue-now' });
  stage.wait(1);
  stage.order({ order: 'hold' });
  expect(stage.phase).toBe('ready');
  expect(stage.of('count-void')).toHaveLength(1);
  expect(stage.refusal({ order: 'cue-now' })).toBe('held');
  stage.wait(8);
  expect(stage.of('cue-request')).toEqual([]);
  expect(stage.refusal({ order: 'resume' })).toBeUndefined();
  expect(stage.refusal({ order: 'resume' })).toBe('not-held');
  expect(stage.refusal({ order: 'cue-now' })).toBe('not-steady');
  stage.wait(1.5);
  expect(stage.refusal({ order: 'cue-now' })).toBeUndefined();
});

it('does not lose the samples of a pull that is put on hold', () => {
  const stage = staged(wren);
  ready(stage);
  cue(stage);
  stage.pull({ hold: 1.5 }, 5, 0.3);
  expect(stage.closed).toHaveLength(1);
  const again = staged(wren);
  ready(again);
  cue(again);
  again.wait(0.5, undefined, (t) => 1500 * Math.min(1, t / 0.2));
  expect(again.phase).toBe('pull');
  again.order({ order: 'hold' });
  again.wait(2);
  expect(again.closed).toMatchObject([{ ended: 'released' }]);
  expect(again.phase).toBe('verdict');
});

it('aborts a pull at once: it is kept, and does not count', () => {
  const stage = staged(wren);
  ready(stage);
  cue(stage);
  stage.wait(1, undefined, (t) => 1400 * Math.min(1, t / 0.3));
  const sample = stage.next;
  stage.order({ order: 'abort' });
  expect(stage.closed).toMatchObject([
    { ended: 'aborted', verdict: 'repeat', reasons: ['aborted'], span: { end: sample } },
  ]);
  expect(stage.phase).toBe('verdict');
});

it('a pain stop blocks maximal efforts until a named person releases it', () => {
  const stage = staged(wren);
  pullGuided(stage);
  stage.order({ order: 'advance' });
  stage.order({ order: 'pain-stop', by: 'u-operator' });
  stage.wait(10);
  expect(stage.refusal({ order: 'advance' })).toBe('pain-stopped');
  stage.stepOff();
  stage.wait(2);
  begin(stage, wren);
  expect(stage.phase).toBe('rest');
  expect(stage.refusal({ order: 'advance' })).toBe('pain-stopped');
  const release = { order: 'release-pain', person: 'p-wren' } as const;
  expect(stage.refusal({ ...release, by: '', reason: 'looked at' })).toBe('name-needed');
  expect(stage.refusal({ ...release, by: 'u-physio', reason: 'looked at' })).toBeUndefined();
  expect(stage.refusal({ ...release, by: 'u-physio', reason: 'looked at' })).toBe('no-pain-stop');
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  expect(stage.phase).toBe('set-up');
});

it('a pain stop in a pull ends it; one for an athlete who left is recorded', () => {
  const stage = staged(wren);
  ready(stage);
  cue(stage);
  stage.wait(1, undefined, (t) => 1400 * Math.min(1, t / 0.3));
  stage.order({ order: 'pain-stop', by: 'u-operator' });
  expect(stage.closed).toMatchObject([{ ended: 'pain', verdict: 'repeat', reasons: ['pain-stop'] }]);
  expect(stage.phase).toBe('rest');
  stage.stepOff();
  stage.wait(2);
  begin(stage, heron, { warmUpDone: 2 });
  expect(stage.refusal({ order: 'pain-stop', by: 'u-operator', person: 'p-wren' })).toBeUndefined();
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
  expect(stage.phase).toBe('ready');
});

it('clearance is a gate', () => {
  const stage = new Stage({ running: quickRules });
  stage.wait(1.5);
  const next = planOf(wren, { clearances: [{ limb: 'left', level: 'not-cleared' }] });
  expect(stage.refusal({ order: 'next-athlete', next })).toBe('not-cleared');
  expect(stage.phase).toBe('waiting');
  begin(stage, wren, { clearances: [{ test: 'imtp', level: 'submaximal-only' }] });
  for (let i = 0; i < 2; i++) {
    ready(stage);
    cue(stage);
    stage.pull(aimed(stage), 5 + i);
    stage.order({ order: 'advance' });
    stage.wait(6);
    if (i === 0) stage.order({ order: 'advance' });
  }
  expect(stage.closed.map(({ effort, closeness }) => [effort, closeness?.where])).toEqual([
    ['submaximal', 'inside'],
    ['submaximal', 'inside'],
  ]);
  expect(stage.said('submaximal-only')).toBe(true);
  expect(stage.refusal({ order: 'advance' })).toBe('not-cleared');
});

it('zeroes again only without load', () => {
  const stage = staged(wren);
  expect(stage.refusal({ order: 'redo-zero' })).toBe('on-plates');
  stage.stepOff();
  stage.wait(1);
  expect(stage.refusal({ order: 'redo-zero' })).toBeUndefined();
  expect(stage.untilPhase('stand-still', 3)).toBe(true);
  expect(stage.of('zero')).toHaveLength(2);
});

it('skips a rest, an effort, and the rest of a set, and says so', () => {
  const stage = new Stage({ running: quickRules });
  stage.wait(1.5);
  begin(stage, wren);
  stage.order({ order: 'skip' });
  stage.order({ order: 'skip' });
  expect(stage.alerted('warm-up-skipped')).toBe(true);
  pullGuided(stage);
  expect(stage.closed.at(-1)?.effort).toBe('maximal');
  stage.order({ order: 'advance' });
  expect(stage.refusal({ order: 'advance' })).toBe('rest-not-over');
  stage.order({ order: 'skip' });
  expect(stage.of('rest').map(({ state }) => state)).toEqual(['began', 'skipped']);
  stage.order({ order: 'advance' });
  expect(stage.phase).toBe('set-up');
  stage.order({ order: 'skip' });
  expect(stage.phase).toBe('rest');
  expect(stage.refusal({ order: 'advance' })).toBe('nothing-planned');
});

it('counts a rest down to zero, so that whoever advances by hand sees its end', () => {
  const stage = new Stage({ running: quickRules });
  stage.wait(1.5);
  begin(stage, wren);
  pullGuided(stage);
  stage.order({ order: 'advance' });
  expect(stage.phase).toBe('rest');
  stage.wait(quickRules.rest.minimum + 1);
  const left = stage.of('countdown').filter((c) => c.of === 'rest');
  expect(left.at(-1)?.seconds).toBe(0);
  expect(left.map(({ seconds }) => seconds)).toEqual(left.map((_, i) => left.length - 1 - i));
  expect(stage.refusal({ order: 'advance' })).toBeUndefined();
});

it('a person may accept or overrule a verdict, by name and with a reason', () => {
  const stage = staged(wren);
  ready(stage);
  stage.pull({}, 5, 1);
  expect(stage.closed).toMatchObject([{ verdict: 'look-again', reasons: ['pulled-without-cue'] }]);
  const [question] = stage.of('question');
  expect(question).toMatchObject({ code: 'look-again', answers: ['counts', 'does-not-count'] });
  const answer = { order: 'answer', question: question!.id, by: 'u-operator' } as const;
  expect(stage.refusal({ ...answer, answer: 'perhaps' })).toBe('unknown-answer');
  expect(stage.of('set').at(-1)?.set.counting).toEqual([]);
  expect(stage.refusal({ ...answer, answer: 'counts' })).toBeUndefined();
  expect(stage.of('set').at(-1)?.set.counting).toEqual([0]);
  expect(stage.refusal({ ...answer, answer: 'counts' })).toBe('unknown-question');
  const judge = { order: 'judge', of: 1, decision: 'does-not-count', by: 'u-coach' } as const;
  expect(stage.refusal({ ...judge, reason: '' })).toBe('name-needed');
  expect(stage.refusal({ ...judge, of: 2, reason: 'slipped' })).toBe('unknown-trial');
  expect(stage.refusal({ ...judge, reason: 'slipped' })).toBeUndefined();
  expect(stage.of('set').at(-1)?.set.counting).toEqual([]);
});

it('gives every refusal a code with words', () => {
  const stage = new Stage();
  stage.wait(0.1);
  const orders: Order[] = [
    { order: 'arm' },
    { order: 'advance' },
    { order: 'abort' },
    { order: 'hold' },
    { order: 'end-turn' },
  ];
  for (const order of orders) expect(stage.refusal(order)).toBe('no-turn');
  for (const words of Object.values(refusals)) expect(words).toMatch(/^[A-Z].*\.$/u);
  expect(stage.input({ kind: 'cue-sounded', cue: 'cue-9', sample: 4 })).toMatchObject([{ code: 'unknown-cue' }]);
});

it('calls nobody while a cue or a pull runs', () => {
  const stage = staged(wren);
  ready(stage);
  stage.order({ order: 'cue-now' });
  expect(stage.refusal({ order: 'next-athlete', next: planOf(heron) })).toBe('not-now');
  stage.order({ order: 'abort' });
  expect(stage.refusal({ order: 'next-athlete', next: planOf(heron) })).toBeUndefined();
  expect(stage.of('turn-ended')).toMatchObject([{ person: 'p-wren', because: 'next-athlete' }]);
  stage.wait(0.5);
  expect(stage.said('step-off')).toBe(true);
});

it('gives a turn to whoever really stands there: their trials, their rest, and the weighing stands', () => {
  const rest = { ...quickRules.rest, minimum: 60 };
  const stage = staged(wren, {}, { running: { ...quickRules, rest } });
  const cannot = planOf(heron, { clearances: [{ level: 'not-cleared' }] });
  expect(stage.refusal({ order: 'identify', as: cannot })).toBe('not-cleared');
  const weighings = stage.of('weighing').length;
  expect(stage.refusal({ order: 'identify', as: planOf(heron, { warmUpDone: 2 }) })).toBeUndefined();
  expect(stage.phase).toBe('set-up');
  expect(stage.of('weighing')).toHaveLength(weighings);
  pullGuided(stage);
  expect(stage.closed).toMatchObject([{ person: 'p-heron', trial: 1, turn: 1, effort: 'maximal' }]);
  expect(stage.engine.trialsOf('p-wren')).toHaveLength(0);
  stage.order({ order: 'advance' });
  stage.stepOff();
  stage.wait(1.6);
  begin(stage, wren, { warmUpDone: 2 });
  expect(stage.phase).toBe('set-up');
  expect(stage.refusal({ order: 'identify', as: planOf(heron, { warmUpDone: 2 }) })).toBeUndefined();
  // The rest of the pull before is theirs, and is not over.
  expect(stage.phase).toBe('rest');
});

it('identifies nobody before the weighing or while a cue runs', () => {
  const stage = new Stage({ running: quickRules });
  stage.wait(1.5);
  expect(stage.refusal({ order: 'identify', as: planOf(heron) })).toBe('no-turn');
  stage.order({ order: 'next-athlete', next: planOf(wren) });
  expect(stage.refusal({ order: 'identify', as: planOf(heron) })).toBe('not-now');
});
