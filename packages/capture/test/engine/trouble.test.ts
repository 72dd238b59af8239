import { describe, expect, it } from 'vitest';
import type { EngineInput } from '../../src/engine/index.ts';
import { begin, call, cue, pullGuided, ready, staged } from './acts.ts';
import { athlete, Stage } from './stage.ts';

const wren = athlete('p-wren');

const status = (state: 'lost' | 'returned' | 'quiet'): EngineInput => ({
  kind: 'packet',
  packet: { kind: 'status', state, words: `The plates are ${state}.`, at: 0n as never },
});
const gap = (stage: Stage, count: number): EngineInput => ({
  kind: 'packet',
  packet: { kind: 'gap', first: stage.next, count, cause: 'lost', at: 0n as never },
});
/** Loses so many samples. */
const lose = (stage: Stage, count: number): void => {
  stage.input(gap(stage, count), count);
  stage.next += count;
};

describe('zero', () => {
  it('is never taken under load', () => {
    const stage = new Stage();
    stage.stepOn(wren);
    stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false } });
    stage.wait(5);
    expect(stage.of('zero')).toEqual([]);
    expect(stage.said('step-off')).toBe(true);
    stage.stepOff();
    expect(stage.untilPhase('stand-still', 3)).toBe(true);
  });

  it('asks when it moved by more than 10 N: a bag on the plate', () => {
    const stage = new Stage();
    stage.wait(1.5);
    stage.offset = [14, 0];
    stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false } });
    stage.wait(3);
    expect(stage.of('question')).toMatchObject([{ code: 'zero-moved' }]);
    expect(stage.phase).toBe('zero');
    stage.offset = [0, 0];
    expect(stage.untilPhase('stand-still', 3)).toBe(true);
    expect(stage.of('question-closed')).toMatchObject([{ answer: 'moved-back' }]);
    expect(Math.abs(stage.of('zero')[0]!.zeros.left!)).toBeLessThan(1);
  });

  it('takes a moved zero when a person says so', () => {
    const stage = new Stage();
    stage.offset = [14, -3];
    stage.wait(1.5);
    stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false } });
    stage.wait(2);
    const question = stage.of('question')[0]!.id;
    stage.order({ order: 'answer', question, answer: 'take-it', by: 'u-operator' });
    expect(stage.untilPhase('stand-still', 1)).toBe(true);
    expect(stage.of('zero')[0]!.zeros.left).toBeCloseTo(14, 0);
    expect(stage.of('zero')[0]!.zeros.right).toBeCloseTo(-3, 0);
    stage.stepOn(wren);
    stage.wait(5);
    expect(Math.abs(stage.of('weighing')[0]!.weighing.bodyWeight - 720)).toBeLessThan(3);
  });

  it('says that plates are not empty from 20 N on', () => {
    const stage = new Stage();
    stage.offset = [25, 0];
    stage.wait(1.5);
    stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false } });
    stage.wait(4);
    expect(stage.said('plates-not-empty')).toBe(true);
    expect(stage.of('zero')).toEqual([]);
  });
});

describe('stand still', () => {
  it('starts its countdown again when the athlete moves, and weighs the whole stand-still', () => {
    const stage = new Stage();
    stage.wait(1.5);
    call(stage, wren);
    stage.stepOn(wren);
    stage.wait(1.5);
    stage.wait(0.4, undefined, (t) => 150 * Math.sin(t * 12));
    expect(stage.of('weighing')).toEqual([]);
    stage.wait(10, () => stage.of('weighing').length > 0);
    const counted = stage.of('countdown').filter((c) => c.of === 'stand-still');
    expect(counted.some(({ restarted }) => restarted)).toBe(true);
    const { span, sd, halves, bodyWeight } = stage.of('weighing')[0]!.weighing;
    expect(span.end - span.start).toBeGreaterThanOrEqual(3000);
    expect(sd).toBeLessThanOrEqual(0.01 * bodyWeight);
    expect(Math.abs(halves)).toBeLessThanOrEqual(0.0025 * bodyWeight);
  });

  it('does not weigh somebody who keeps moving', () => {
    const stage = new Stage();
    stage.wait(1.5);
    call(stage, wren);
    stage.stepOn(wren);
    stage.wait(17, undefined, (t) => 60 * Math.sin(2 * Math.PI * 0.7 * t));
    expect(stage.of('weighing')).toEqual([]);
    expect(stage.said('cannot-weigh')).toBe(true);
  });
});

describe('stepping off', () => {
  it('and back within a minute is the same turn, and the weighing stands', () => {
    const stage = staged(wren);
    ready(stage);
    stage.stepOff();
    stage.wait(20);
    expect(stage.phase).toBe('set-up');
    stage.stepOn(wren);
    stage.wait(1);
    expect(stage.turn).toBe(1);
    expect(stage.of('weighing')).toHaveLength(1);
    pullGuided(stage);
    expect(stage.closed).toMatchObject([{ turn: 1, verdict: 'counts' }]);
  });

  it('voids the weighing when the zero did not hold', () => {
    const stage = staged(wren);
    stage.stepOff();
    stage.wait(0.5);
    stage.offset = [7, 0];
    stage.wait(3);
    stage.stepOn(wren);
    expect(stage.said('zero-not-held')).toBe(true);
    expect(stage.phase).toBe('zero');
    stage.stepOff();
    expect(stage.untilPhase('stand-still', 3)).toBe(true);
    expect(stage.turn).toBe(1);
  });

  it('for longer ends the turn', () => {
    const stage = staged(wren);
    stage.stepOff();
    stage.wait(61);
    expect(stage.phase).toBe('waiting');
    expect(stage.of('turn-ended')).toMatchObject([{ because: 'stepped-off' }]);
  });

  it('in the count voids it', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(1);
    stage.stepOff();
    stage.wait(4);
    expect(stage.of('count-void')).toHaveLength(1);
    expect(stage.of('cue-request')).toEqual([]);
  });
});

describe('drift', () => {
  it('changes the verdict once the empty plates are seen', () => {
    const stage = staged(wren);
    pullGuided(stage);
    expect(stage.closed).toMatchObject([{ verdict: 'counts' }]);
    stage.order({ order: 'advance' });
    stage.offset = [0, 18];
    stage.stepOff();
    stage.wait(2);
    const [review] = stage.of('trial-reviewed');
    expect(review?.trial.unloaded?.after).toBeCloseTo(18, 0);
    expect(review?.trial.result.checks.zero_after?.status).toBe('fail');
    expect(review?.trial.verdict).toBe('repeat');
    expect(stage.of('set').at(-1)?.set.counting).toEqual([]);
    expect(stage.alerted('verdict-changed')).toBe(true);
  });
});

describe('lost samples', () => {
  it('end a pull by rule when more than 5 ms are missing', () => {
    const stage = staged(wren);
    ready(stage);
    cue(stage);
    stage.wait(2, undefined, (t) => 1400 * Math.min(1, t / 0.3));
    const at = stage.next;
    lose(stage, 30);
    expect(stage.closed).toMatchObject([
      { ended: 'gap', verdict: 'repeat', reasons: ['gap-in-pull'], span: { end: at } },
    ]);
  });

  it('do not end it when they can be filled; then it is looked at again', () => {
    const stage = staged(wren);
    ready(stage);
    cue(stage);
    stage.wait(2, undefined, (t) => 1400 * Math.min(1, t / 0.3));
    lose(stage, 4);
    expect(stage.closed).toEqual([]);
    stage.wait(2, undefined, () => 1400);
    stage.wait(1);
    expect(stage.closed).toMatchObject([{ ended: 'released' }]);
    expect(stage.closed[0]?.result.checks.gap?.status).toBe('warn');
  });

  it('are seen without a gap packet too', () => {
    const stage = staged(wren);
    ready(stage);
    cue(stage);
    stage.wait(2, undefined, (t) => 1400 * Math.min(1, t / 0.3));
    stage.next += 50;
    stage.wait(0.1, undefined, () => 1400);
    expect(stage.closed).toMatchObject([{ ended: 'gap' }]);
  });

  it('a pulled plug ends the pull; the return is the same turn', () => {
    const stage = staged(wren);
    ready(stage);
    cue(stage);
    stage.wait(2, undefined, (t) => 1400 * Math.min(1, t / 0.3));
    stage.input(status('lost'));
    expect(stage.closed).toMatchObject([{ ended: 'signal-lost', verdict: 'repeat' }]);
    stage.order({ order: 'advance' });
    expect(stage.refusal({ order: 'advance' })).toBe('signal-lost');
    lose(stage, 2500);
    stage.wait(7);
    expect(stage.alerted('signal-back')).toBe(true);
    expect(stage.refusal({ order: 'advance' })).toBeUndefined();
    expect(stage.phase).toBe('set-up');
    expect(stage.turn).toBe(1);
  });

  it('void a count', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(1);
    stage.input(status('quiet'));
    expect(stage.of('count-void')).toMatchObject([{ because: 'signal-lost' }]);
    expect(stage.phase).toBe('set-up');
  });

  it('for more than a minute end the turn', () => {
    const stage = staged(wren);
    lose(stage, 61_000);
    expect(stage.phase).toBe('waiting');
    stage.wait(3);
    expect(stage.alerted('signal-back')).toBe(false);
  });
});

describe('the cue', () => {
  it('is refused for an early start: the count stops when the athlete moves', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(2.2);
    stage.pull({}, 4, 0.2);
    expect(stage.of('cue-request')).toEqual([]);
    expect(stage.closed).toMatchObject([{ verdict: 'look-again', reasons: ['pulled-without-cue'] }]);
    const { correction } = stage.of('verdict')[0]!;
    expect(correction?.words).toBe('Wait for the cue');
  });

  it('warns by the time the device gives', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.until('cue-request', 5);
    const { cue: id, sample } = stage.of('cue-request')[0]!;
    stage.pull({ hold: 2.5 }, 4, 0.02);
    expect(stage.phase).toBe('verdict');
    expect(stage.closed).toMatchObject([{ verdict: 'look-again', reasons: ['cue-time-unknown'] }]);
    expect(stage.alerted('cue-not-confirmed')).toBe(false);
    expect(stage.input({ kind: 'cue-sounded', cue: id, sample })).toMatchObject([{ code: 'unknown-cue' }]);

    const other = staged(wren);
    ready(other);
    other.order({ order: 'cue-now' });
    other.until('cue-request', 5);
    const request = other.of('cue-request')[0]!;
    other.input({ kind: 'cue-sounded', cue: request.cue, sample: request.sample + 400 });
    other.pull({}, 4, 0.02);
    expect(other.closed[0]?.result.checks.early_pull?.status).toBe('warn');
    expect(other.closed[0]?.verdict).toBe('look-again');
  });

  it('without an answer is said, and without a pull is void', () => {
    const stage = staged(wren);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.until('cue-request', 5);
    stage.wait(7);
    expect(stage.alerted('cue-not-confirmed')).toBe(true);
    expect(stage.said('no-pull')).toBe(true);
    expect(stage.phase).toBe('ready');
    expect(stage.closed).toEqual([]);
  });

  it('says relax after five seconds of steady tension', () => {
    const stage = staged(wren);
    stage.order({ order: 'advance' });
    stage.wait(4.8);
    expect(stage.said('relax')).toBe(false);
    stage.wait(0.4);
    expect(stage.said('relax')).toBe(true);
  });

  it('leaves a tug at the bar alone', () => {
    const stage = staged(wren);
    ready(stage);
    stage.wait(1, undefined, (t) => 250 * Math.sin(Math.PI * t));
    stage.wait(2);
    expect(stage.of('effort-dismissed')).toHaveLength(1);
    expect(stage.closed).toEqual([]);
    expect(stage.phase).toBe('ready');
  });
});

it('ends a pull that does not end', () => {
  const stage = staged(wren);
  ready(stage);
  cue(stage);
  stage.wait(
    14,
    () => stage.closed.length > 0,
    (t) => 1400 * Math.min(1, t / 0.3),
  );
  expect(stage.said('stop')).toBe(true);
  expect(stage.closed).toMatchObject([{ ended: 'too-long', reasons: ['too-long'] }]);
});

it('does not read the samples of other plates', () => {
  const stage = new Stage();
  stage.wait(1);
  const other = { ...stage.happenings[0] } as { input: EngineInput };
  if (other.input.kind !== 'packet' || other.input.packet.kind !== 'header') throw new Error('no header');
  stage.input({ kind: 'packet', packet: { ...other.input.packet, promisedRate: 500 } });
  expect(stage.alerted('rig-changed')).toBe(true);
  const live = stage.of('live').length;
  stage.wait(1);
  expect(stage.of('live')).toHaveLength(live);
});

it('uses the measured rate when the promised one is wrong, and says so', () => {
  const stage = staged(wren);
  const clock = (measuredRate: number): EngineInput => ({
    kind: 'packet',
    packet: { kind: 'clock', sample: stage.next, at: 0n as never, wallClock: '' as never, measuredRate },
  });
  stage.input(clock(1000.4));
  pullGuided(stage);
  expect(stage.closed[0]?.sampleRate).toBe(1000);
  stage.order({ order: 'advance' });
  stage.input(clock(1006));
  expect(stage.alerted('rate-off')).toBe(true);
  stage.wait(9);
  stage.order({ order: 'advance' });
  pullGuided(stage);
  expect(stage.closed[1]?.sampleRate).toBe(1006);
});

it('gives live values at a bounded rate', () => {
  const stage = new Stage({ liveRate: 10 });
  stage.wait(10);
  expect(stage.of('live').length).toBeLessThanOrEqual(100);
  expect(stage.of('live').length).toBeGreaterThan(80);
  begin(stage, wren);
  const last = stage.of('live').at(-1)!;
  expect(last.total).toBeCloseTo((last.left ?? 0) + (last.right ?? 0), 6);
  expect(last.shareRight).toBeCloseTo(50, 0);
});
