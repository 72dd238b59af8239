import { describe, expect, it } from 'vitest';
import { analyseClosed, type ClosedTrial, type EngineInput, forcesOfSpan } from '../../src/engine/index.ts';
import { defaultMethod } from './core.ts';
import { cued, jump, jumpConfig, jumpStage, jumpTest } from './jump-acts.ts';
import { dropCurve, hopCurve, type JumpCurve, jumpCurve } from './jumper.ts';
import { athlete, header, recordedOf, replay, type Stage } from './stage.ts';

const wren = athlete('p-wren', { shareRight: 0.52, sway: 1 });
const { bodyWeight: weight } = wren;
const good = jumpCurve({ weight });

/** The trial again from what a journal would hold: raw samples of the span, channels, and the facts of the trial. */
function again(stage: Stage, trial: ClosedTrial, test: string) {
  const { left, right } = recordedOf(stage);
  const { start, end } = trial.span;
  const { channels } = header(stage.rate, stage.range);
  const raw = [left.slice(start, end), right.slice(start, end)];
  const forces = forcesOfSpan({ sampleRate: trial.sampleRate, channels, raw }, trial.zeros, 'N');
  if (!forces.ok) throw new Error(forces.reason);
  return analyseClosed(forces.value, trial, jumpTest(test), defaultMethod, 9.80665);
}

/** Plays a jump up to a sample of it, then lets something happen, then the rest. */
function brokenAt(stage: Stage, curve: JumpCurve, at: number, happens: (stage: Stage) => number): void {
  jump(stage, wren, { ...curve, total: curve.total.slice(0, at) });
  const lost = happens(stage);
  jump(stage, wren, { ...curve, total: curve.total.slice(at + lost) });
}

const gapOf = (count: number) => (stage: Stage) => {
  const first = stage.next;
  stage.input({ kind: 'packet', packet: { kind: 'gap', first, count, cause: 'lost', at: 0n as never } }, count);
  stage.next += count;
  return count;
};
const status = (state: 'lost' | 'quiet'): EngineInput => ({
  kind: 'packet',
  packet: { kind: 'status', state, words: 'As told.', at: 0n as never },
});

describe('live and stored agree to the last digit', () => {
  const cases = [
    ['countermovement-jump', good],
    ['countermovement-jump-left', good],
    ['squat-jump', jumpCurve({ weight, velocity: 2.3 }, 0)],
    ['squat-jump', jumpCurve({ weight, velocity: 2.3 }, 0.5)],
    ['drop-jump', dropCurve({ weight })],
    ['repeated-hops', hopCurve({ weight })],
  ] as const;
  it.each(cases)('in a %s', (test, curve) => {
    const who = test.endsWith('left') ? { ...wren, shareRight: 0 } : wren;
    const stage = jumpStage(test, who, {}, { jumpSetup: { boxHeight: 0.3 } });
    const box = test === 'drop-jump';
    if (box) {
      stage.stepOff();
      stage.wait(1.5);
    }
    cued(stage);
    if (!box) stage.wait(0.2);
    jump(stage, who, curve);
    if (box) stage.stands(who);
    stage.wait(3);
    stage.stepOff();
    stage.wait(4);
    const [trial, ...more] = stage.closed;
    expect(more).toEqual([]);
    expect(again(stage, trial!, test)).toEqual(trial!.result);
    const reviewed = stage.of('trial-reviewed').map((output) => output.trial);
    expect(reviewed).toHaveLength(1);
    expect(again(stage, reviewed[0]!, test)).toEqual(reviewed[0]!.result);
    expect(reviewed[0]!.unloaded?.after).toBeCloseTo(0, 0);
  });
});

describe('what goes wrong in a jump', () => {
  const troubled = (happens: (stage: Stage) => void, range = 10_000): Stage => {
    const stage = jumpStage('countermovement-jump', wren, {}, {}, range);
    cued(stage);
    happens(stage);
    stage.wait(3);
    return stage;
  };

  it('ends by rule at a gap in the flight', () => {
    const stage = troubled((one) => brokenAt(one, good, Math.round(good.takeOff) + 200, gapOf(40)));
    expect(stage.closed[0]).toMatchObject({ ended: 'gap', verdict: 'repeat', reasons: ['gap-in-pull'] });
    expect(again(stage, stage.closed[0]!, 'countermovement-jump')).toEqual(stage.closed[0]!.result);
    expect(stage.turn).toBe(1);
    expect(replay(stage, jumpConfig('countermovement-jump'), () => 113)).toEqual(stage.outputs);
  });

  it('goes on over a gap that can be filled', () => {
    const stage = troubled((one) => brokenAt(one, good, Math.round(good.takeOff) + 200, gapOf(4)));
    expect(stage.closed[0]).toMatchObject({ ended: 'released', reasons: [] });
    expect(stage.closed[0]?.result.metrics.jump_height).toHaveProperty('value');
  });

  it.each(['lost', 'quiet'] as const)('ends by rule when the plates are %s in the push', (state) => {
    const stage = troubled((one) =>
      brokenAt(one, good, Math.round(good.takeOff) - 100, () => {
        one.input(status(state));
        return 0;
      }),
    );
    expect(stage.closed[0]).toMatchObject({ ended: 'signal-lost', verdict: 'repeat' });
    expect(stage.alerted('signal-lost')).toBe(true);
  });

  it('says that the landing was more than the plates can measure', () => {
    const stage = troubled((one) => jump(one, wren, good), 800);
    const [trial] = stage.closed;
    expect(trial?.result.checks.jump_saturation?.status).toBe('fail');
    expect(trial?.verdict).toBe('repeat');
    expect(stage.of('verdict')[0]?.correction).toEqual({
      for: 'jump_saturation',
      words: 'Not your fault: plates too small',
    });
  });

  it('stops at once for an order or for pain, also in the air', () => {
    for (const order of [{ order: 'abort' }, { order: 'pain-stop', by: 'u-operator' }] as const) {
      const stage = troubled((one) =>
        brokenAt(one, good, Math.round(good.takeOff) + 200, () => {
          one.order(order);
          return 0;
        }),
      );
      expect(stage.closed[0]).toMatchObject({ ended: order.order === 'abort' ? 'aborted' : 'pain', verdict: 'repeat' });
      expect(stage.of('guidance').find(({ code }) => code === 'stop')?.words).toBe('Stop');
      if (order.order === 'pain-stop') expect(stage.refusal({ order: 'advance' })).toBe('pain-stopped');
    }
  });

  it('records a jump to its end while the turn is on hold, and is not begun by it', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    brokenAt(stage, good, 300, () => {
      stage.order({ order: 'hold' });
      return 0;
    });
    stage.wait(3);
    expect(stage.closed[0]).toMatchObject({ ended: 'released', verdict: 'counts' });
    expect(stage.refusal({ order: 'next-athlete', next: { person: 'p-x', clearances: [], minor: false } })).toBe(
      undefined,
    );
  });

  it('takes the zero again when the machine slept through a jump', () => {
    const stage = troubled((one) =>
      brokenAt(one, good, 400, () => {
        one.order({ order: 'woke-up', seconds: 9 });
        return 0;
      }),
    );
    expect(stage.closed[0]).toMatchObject({ ended: 'signal-lost', verdict: 'repeat' });
    expect(stage.phase).toBe('zero');
  });

  it('keeps other orders out of a jump', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    const refused: (string | undefined)[] = [];
    brokenAt(stage, good, 400, () => {
      expect(stage.phase).toBe('jump');
      for (const order of ['advance', 'redo-zero', 'skip', 'cue-now'] as const) refused.push(stage.refusal({ order }));
      refused.push(stage.refusal({ order: 'next-athlete', next: { person: 'p-x', clearances: [], minor: false } }));
      return 0;
    });
    expect(refused).toEqual(['not-now', 'not-now', 'not-now', 'not-now', 'not-now']);
  });
});

it('needs a clearance for a maximal jump, and a warm-up before it', () => {
  const stage = jumpStage('countermovement-jump', wren, {}, { warmUpDone: 0 });
  expect(stage.of('phase').at(-1)).toMatchObject({ jump: 'countermovement', effort: { kind: 'submaximal' } });
  expect(stage.of('phase').at(-1)?.effort?.target).toBeUndefined();
  cued(stage);
  stage.wait(0.2);
  jump(stage, wren, jumpCurve({ weight, velocity: 1.6 }, 0.8));
  stage.wait(2);
  expect(stage.closed[0]).toMatchObject({ effort: 'submaximal' });
  expect(stage.of('verdict')[0]?.correction?.words).toBe('Good. Warmer now');
  expect(stage.of('set')).toEqual([]);
  const other = jumpStage('countermovement-jump', wren, {}, { clearances: [{ level: 'submaximal-only' }] });
  expect(other.phase).toBe('rest');
  expect(other.said('submaximal-only')).toBe(true);
});
