import { describe, expect, it } from 'vitest';
import type { EngineInput } from '../../src/engine/index.ts';
import { aimed, begin, call, cue, pullGuided, quickRules, ready } from './acts.ts';
import { type Athlete, athlete, replay, Stage } from './stage.ts';

const wren = athlete('p-wren', { bodyWeight: 640, netForce: 1250, noise: 0.6 });
const heron = athlete('p-heron', { bodyWeight: 860, netForce: 1900, shareRight: 0.53 });
const otter = athlete('p-otter', { bodyWeight: 1010, netForce: 1600, shareRight: 0.47, noise: 1 });

/** Two submaximal efforts, guided, at half and three quarters. */
function warmUp(stage: Stage, seed: number): void {
  for (let i = 0; i < 2; i++) {
    ready(stage);
    cue(stage);
    stage.pull(aimed(stage), seed + i);
    stage.order({ order: 'advance' });
    stage.wait(6);
    if (i === 0) stage.order({ order: 'advance' });
  }
}

/** Leaves the plates; somebody else may come. */
function leave(stage: Stage): void {
  if (stage.phase === 'verdict') stage.order({ order: 'advance' });
  stage.stepOff();
  stage.wait(1.6);
}

describe('a guided day of three alternating athletes', () => {
  const config = { running: quickRules };
  const stage = new Stage(config);
  stage.wait(2);

  it('warms everybody up', () => {
    for (const [at, who] of [wren, heron, otter].entries()) {
      begin(stage, who, { ownBest: who.bodyWeight + who.netForce });
      warmUp(stage, 40 + 2 * at);
      leave(stage);
    }
    expect(
      stage.closed.map(({ person, effort, target, closeness }) => [person, effort, target?.share, closeness?.where]),
    ).toEqual(
      [wren, heron, otter].flatMap(({ ref }) => [
        [ref, 'submaximal', 0.5, 'inside'],
        [ref, 'submaximal', 0.75, 'inside'],
      ]),
    );
    expect(stage.closed.every(({ target }) => target?.from === 'own-best')).toBe(true);
  });

  it('alternates: one pulls while the others rest', () => {
    for (const who of [wren, heron, otter]) {
      begin(stage, who);
      expect(stage.phase).toBe('set-up');
      pullGuided(stage, {}, 3);
      leave(stage);
    }
    expect(stage.closed.slice(6)).toMatchObject([
      { person: 'p-wren', trial: 3, turn: 4, effort: 'maximal', verdict: 'counts' },
      { person: 'p-heron', trial: 3, turn: 5, verdict: 'counts' },
      { person: 'p-otter', trial: 3, turn: 6, verdict: 'counts' },
    ]);
  });

  it('sees the wrong person', () => {
    call(stage, wren);
    stage.stepOn(otter);
    stage.wait(6);
    const question = stage.of('question').at(-1)!;
    expect(question).toMatchObject({ code: 'is-this-the-athlete', data: { person: 'p-wren' } });
    expect(stage.refusal({ order: 'advance' })).toBe('question-open');
    stage.order({ order: 'answer', question: question.id, answer: 'no', by: 'u-operator' });
    expect(stage.phase).toBe('waiting');
    leave(stage);
  });

  it('sees a bag on a plate', () => {
    stage.offset = [0, 13];
    stage.order({ order: 'next-athlete', next: { person: 'p-wren', clearances: [], minor: false } });
    stage.wait(3);
    expect(stage.of('question').at(-1)?.code).toBe('zero-moved');
    stage.offset = [0, 0];
    stage.wait(2);
    expect(stage.phase).toBe('stand-still');
  });

  it('stops a count on an early pull, and takes a step off and back', () => {
    stage.stepOn(wren);
    stage.wait(6);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(2);
    stage.pull({}, 7, 0.2);
    expect(stage.closed.at(-1)).toMatchObject({ trial: 4, verdict: 'look-again', reasons: ['pulled-without-cue'] });
    stage.order({ order: 'advance' });
    stage.stepOff();
    stage.wait(15);
    const weighings = stage.of('weighing').length;
    stage.stepOn(wren);
    stage.wait(5);
    expect(stage.of('weighing')).toHaveLength(weighings);
    stage.order({ order: 'advance' });
    pullGuided(stage, {}, 5);
    expect(stage.closed.at(-1)).toMatchObject({ trial: 5, turn: stage.turn, verdict: 'counts' });
    leave(stage);
  });

  it('takes a hold, a dip and an unplugged rig', () => {
    begin(stage, heron);
    ready(stage);
    stage.order({ order: 'cue-now' });
    stage.wait(1);
    stage.order({ order: 'hold' });
    stage.wait(10);
    stage.order({ order: 'resume' });
    stage.wait(1.5);
    cue(stage);
    stage.pull({ fault: 'dip', severity: { depth_n: 110, duration_s: 0.3 } }, 5, 0.4);
    expect(stage.closed.at(-1)).toMatchObject({ person: 'p-heron', verdict: 'repeat', reasons: [] });
    expect(stage.of('verdict').at(-1)?.correction?.words).toBe('No dip before you push');
    stage.order({ order: 'advance' });
    stage.wait(9);
    stage.order({ order: 'advance' });
    ready(stage);
    cue(stage);
    stage.wait(1.5, undefined, (t) => 1800 * Math.min(1, t / 0.3));
    const lost: EngineInput = {
      kind: 'packet',
      packet: { kind: 'status', state: 'lost', words: 'The plates were unplugged.', at: 0n as never },
    };
    stage.input(lost);
    expect(stage.closed.at(-1)).toMatchObject({ ended: 'signal-lost', verdict: 'repeat' });
    const missing = 1500;
    stage.input(
      {
        kind: 'packet',
        packet: { kind: 'gap', first: stage.next, count: missing, cause: 'disconnected', at: 0n as never },
      },
      missing,
    );
    stage.next += missing;
    stage.wait(8);
    stage.order({ order: 'advance' });
    stage.order({ order: 'advance' });
    expect(stage.phase).toBe('set-up');
    pullGuided(stage, {}, 5);
    expect(stage.closed.at(-1)).toMatchObject({ person: 'p-heron', trial: 6, verdict: 'counts' });
    leave(stage);
  });

  it('sees a drift of the plates after the turn', () => {
    begin(stage, otter);
    pullGuided(stage, {}, 5);
    expect(stage.closed.at(-1)?.verdict).toBe('counts');
    stage.order({ order: 'advance' });
    stage.offset = [8, 9];
    stage.stepOff();
    stage.wait(1.6);
    expect(stage.of('trial-reviewed').at(-1)?.trial).toMatchObject({ person: 'p-otter', verdict: 'repeat' });
  });

  it('stops for pain, and for good', () => {
    stage.wait(8);
    begin(stage, otter);
    ready(stage);
    cue(stage);
    stage.wait(0.7, undefined, (t) => 1500 * Math.min(1, t / 0.3));
    stage.order({ order: 'pain-stop', by: 'u-operator' });
    leave(stage);
    begin(stage, otter);
    expect(stage.phase).toBe('rest');
    expect(stage.refusal({ order: 'advance' })).toBe('pain-stopped');
    leave(stage);
  });

  it('lets every set end in two to five maximal trials', () => {
    for (const [seed, who] of [wren, heron].entries()) {
      for (let i = 0; i < 3 && stage.of('set').findLast(({ person }) => person === who.ref)?.another; i++) {
        stage.wait(8);
        begin(stage, who);
        pullGuided(stage, {}, 11 + seed + i);
        leave(stage);
      }
      const set = stage.of('set').findLast(({ person }) => person === who.ref)!;
      expect(set.another).toBe(false);
      expect(set.set.maximal).toBeGreaterThanOrEqual(2);
      expect(set.set.maximal).toBeLessThanOrEqual(5);
    }
  });

  it('reviews every trial, and is the same day when replayed', () => {
    expect(stage.of('trial-reviewed')).toHaveLength(stage.closed.length);
    const replayed = replay(stage, config, () => 500);
    expect(replayed.length).toBe(stage.outputs.length);
    expect(replayed).toEqual(stage.outputs);
  });
});

describe('a hands-free day', () => {
  const config = { running: quickRules, mode: 'hands-free' as const };
  const stage = new Stage(config);
  stage.wait(2);

  /** One effort by itself: the plates decide, the athlete follows. */
  function alone(who: Athlete, seed: number, share?: number): void {
    if (!stage.until('cue-request', 30)) throw new Error(`${who.ref} got no cue in ${stage.phase}`);
    stage.sound();
    stage.pull(share === undefined ? {} : aimed(stage, share), seed);
  }

  it('gives no cue until the turn is armed', () => {
    call(stage, wren, { maximalTrials: 2 });
    stage.stepOn(wren);
    stage.wait(20);
    expect(stage.phase).toBe('ready');
    expect(stage.of('count')).toEqual([]);
    expect(stage.said('arm-for-cues')).toBe(true);
    expect(stage.said('relax')).toBe(true);
  });

  it('runs warm-up and trials by itself', () => {
    expect(stage.refusal({ order: 'arm' })).toBeUndefined();
    alone(wren, 1, 1);
    alone(wren, 2, 1.4);
    alone(wren, 3);
    alone(wren, 5);
    stage.wait(5);
    expect(stage.closed.map(({ effort, closeness }) => [effort, closeness?.where])).toEqual([
      ['submaximal', 'inside'],
      ['submaximal', 'over'],
      ['maximal', undefined],
      ['maximal', undefined],
    ]);
    expect(stage.of('verdict')[1]?.correction?.words).toBe('A little easier next time');
    const [third, fourth] = stage.closed.slice(2);
    // Counted rest stands between the end of one effort and the cue of the next.
    expect(fourth!.cue! - third!.span.end).toBeGreaterThanOrEqual((quickRules.rest.minimum - 0.6) * stage.rate);
    expect(stage.said('done')).toBe(true);
    stage.stepOff();
    stage.wait(2);
    expect(stage.of('turn-ended')).toMatchObject([{ because: 'complete' }]);
  });

  it('asks for another when the two best differ by more than 250 N', () => {
    call(stage, heron, { maximalTrials: 2, warmUpDone: 2 });
    stage.stepOn(heron);
    stage.order({ order: 'arm' });
    alone(heron, 3);
    stage.until('cue-request', 40);
    stage.sound();
    stage.pull({ netForce: heron.netForce - 500 }, 5);
    expect(stage.said('another-trial')).toBe(true);
    expect(stage.of('set').at(-1)?.another).toBe(true);
    alone(heron, 5);
    expect(stage.of('set').at(-1)?.another).toBe(false);
    stage.wait(4);
    stage.stepOff();
    stage.wait(2);
  });

  it('offers another pull after a bad one, and closes after five', () => {
    call(stage, otter, { maximalTrials: 2, warmUpDone: 2 });
    stage.stepOn(otter);
    stage.order({ order: 'arm' });
    for (let i = 0; i < 5; i++) {
      stage.until('cue-request', 40);
      stage.sound();
      stage.pull({ fault: 'early-end', severity: { hold_s: 0.7 } }, 3 + i);
      stage.wait(1);
    }
    const mine = stage.closed.filter(({ person }) => person === 'p-otter');
    expect(mine).toHaveLength(5);
    expect(mine.every(({ verdict }) => verdict === 'repeat')).toBe(true);
    expect(stage.said('another-pull')).toBe(true);
    expect(stage.said('consider-stopping')).toBe(true);
    expect(stage.said('set-closed')).toBe(true);
    expect(stage.of('set').at(-1)).toMatchObject({ another: false, set: { closed: true } });
    stage.wait(4);
    expect(stage.phase).toBe('rest');
    stage.stepOff();
    stage.wait(2);
  });

  it('disarms on abort', () => {
    call(stage, wren, { maximalTrials: 5, warmUpDone: 2 });
    stage.stepOn(wren);
    stage.order({ order: 'arm' });
    stage.until('count', 30);
    stage.order({ order: 'abort' });
    const cues = stage.of('cue-request').length;
    stage.wait(15);
    expect(stage.of('cue-request')).toHaveLength(cues);
    expect(stage.of('state').at(-1)).toMatchObject({ armed: false });
  });

  it('is the same day when replayed', () => {
    expect(replay(stage, config, () => 77)).toEqual(stage.outputs);
  });
});
