import { describe, expect, it } from 'vitest';
import { cued, jump, jumpConfig, jumpStage } from './jump-acts.ts';
import { dropCurve, hopCurve, jumpCurve } from './jumper.ts';
import { athlete, replay, type Stage } from './stage.ts';

/** The quiet second before a jump is judged strictly: who breathes deeply is asked to stand still once more. */
const wren = athlete('p-wren', { shareRight: 0.52, sway: 1 });
const { bodyWeight: weight } = wren;
const stages = (stage: Stage) => stage.of('stage').map((output) => output.stage);
const phases = (stage: Stage) => stage.of('phase').map(({ phase }) => phase);
const sure = (stage: Stage) => {
  const [trial] = stage.closed;
  if (trial === undefined) throw new Error(`no trial was closed in phase ${stage.phase}`);
  return trial;
};
const height = (stage: Stage): number => {
  const measured = sure(stage).result.metrics.jump_height;
  if (measured === undefined || !('value' in measured)) throw new Error(JSON.stringify(measured));
  return measured.value;
};
const found = (stage: Stage) =>
  Object.entries(sure(stage).result.checks).filter(([, { status }]) => status === 'warn' || status === 'fail');

describe('a countermovement jump', () => {
  it('goes through its stages to a verdict, and closes after a second of standing still', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    stage.wait(0.2);
    const from = stage.next;
    jump(stage, wren, jumpCurve({ weight }));
    expect(stage.phase).toBe('jump');
    stage.wait(1.5);
    expect(stages(stage)).toEqual(['go', 'flight', 'landing', 'still']);
    expect(phases(stage).slice(-3)).toEqual(['cue', 'jump', 'verdict']);
    const trial = sure(stage);
    expect(trial).toMatchObject({ ended: 'released', reasons: [], verdict: 'counts', effort: 'maximal' });
    expect(found(stage)).toEqual([]);
    // v^2 / (2 g) with v = 2.5 m/s.
    expect(height(stage)).toBeCloseTo(0.3187, 2);
    const takeOff = trial.span.start + (trial.result.jump?.takeOff ?? 0);
    expect(Math.abs(takeOff - from - jumpCurve({ weight }).takeOff)).toBeLessThan(15);
    // A second of standing still after the landing, and no more.
    const landed = trial.span.start + (trial.result.jump?.touchdown ?? 0);
    expect(trial.span.end - landed).toBeGreaterThanOrEqual(1000);
    expect(trial.span.end - landed).toBeLessThan(1700);
    expect(stage.of('verdict')[0]?.correction?.words).toBe('Good. That one counts');
  });

  it('does not take the flight for stepping off, however long it is', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    jump(stage, wren, jumpCurve({ weight, velocity: 4.6 }));
    stage.wait(2);
    expect(stage.of('mark').filter(({ label }) => label === 'step-off')).toEqual([]);
    expect(stage.closed).toHaveLength(1);
    expect(stage.turn).toBe(1);
  });

  it('is no jump when nobody leaves the plates, or when they are left for good', () => {
    const dip = jumpStage('countermovement-jump', wren);
    cued(dip);
    dip.wait(0.5, undefined, (t) => -200 * Math.sin((Math.PI * t) / 0.5));
    expect(dip.phase).toBe('jump');
    dip.wait(7);
    expect(dip.closed).toEqual([]);
    expect(dip.phase).toBe('ready');
    expect(dip.of('effort-dismissed').map(({ because }) => because)).toEqual(['no-flight']);
    expect(dip.said('no-jump')).toBe(true);

    const off = jumpStage('countermovement-jump', wren);
    cued(off);
    off.stepOff();
    off.wait(2);
    expect(off.closed).toEqual([]);
    expect(off.of('effort-dismissed').map(({ because }) => because)).toEqual(['left-plates']);
    expect(off.phase).toBe('set-up');
    expect(off.of('mark').filter(({ label }) => label === 'step-off')).toHaveLength(1);
  });

  it('voids a cue after which nothing happens', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    stage.wait(6.5);
    expect(stage.phase).toBe('ready');
    expect(stage.said('no-jump')).toBe(true);
    expect(stage.closed).toEqual([]);
  });

  it('is seen without a cue, and looked at again', () => {
    const stage = jumpStage('countermovement-jump', wren);
    stage.order({ order: 'advance' });
    stage.wait(2);
    jump(stage, wren, jumpCurve({ weight }));
    stage.wait(2);
    expect(sure(stage)).toMatchObject({ reasons: ['pulled-without-cue'], verdict: 'look-again' });
    expect(height(stage)).toBeCloseTo(0.3187, 2);
  });

  it('closes three seconds after the landing when nobody stands still, and says so', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    jump(stage, wren, jumpCurve({ weight }));
    stage.wait(4, undefined, (t) => 120 * Math.sin(2 * Math.PI * 1.1 * t));
    const trial = sure(stage);
    expect(trial).toMatchObject({ ended: 'not-still', reasons: ['not-still'] });
    const landed = trial.span.start + (trial.result.jump?.touchdown ?? 0);
    expect(trial.span.end - landed).toBeGreaterThanOrEqual(2980);
    expect(trial.span.end - landed).toBeLessThanOrEqual(3040);
    expect(stage.of('verdict')[0]?.correction?.words).toBe('Land and stand still');
  });

  it('ends where another jump begins before standing still, and measures the first', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    jump(stage, wren, jumpCurve({ weight }));
    stage.wait(0.4);
    jump(stage, wren, jumpCurve({ weight, velocity: 2.9 }));
    stage.wait(2);
    expect(stage.closed).toHaveLength(1);
    expect(sure(stage).ended).toBe('not-still');
    expect(height(stage)).toBeCloseTo(0.3187, 2);
    expect(stage.phase).toBe('verdict');
  });

  it('gives several jumps of one turn as trials of their own, with rest between, hands-free', () => {
    const stage = jumpStage('countermovement-jump', wren, { mode: 'hands-free' });
    stage.order({ order: 'arm' });
    for (let i = 0; i < 3; i++) {
      if (!stage.until('cue-request', 25)) throw new Error(`no cue in phase ${stage.phase}`);
      stage.sound();
      stage.wait(0.2);
      jump(stage, wren, jumpCurve({ weight, velocity: 2.5 - 0.02 * i }));
      stage.wait(2);
    }
    stage.wait(4);
    expect(stage.closed.map(({ trial, verdict }) => [trial, verdict])).toEqual([
      [1, 'counts'],
      [2, 'counts'],
      [3, 'counts'],
    ]);
    const spans = stage.closed.map(({ span }) => span);
    for (const [i, span] of spans.entries()) expect(span.start).toBeGreaterThanOrEqual(spans[i - 1]?.end ?? 0);
    expect(stage.phase).toBe('rest');
  });

  it('gives the same outputs in other packets', () => {
    const stage = jumpStage('countermovement-jump', wren);
    cued(stage);
    jump(stage, wren, jumpCurve({ weight }));
    stage.wait(2);
    stage.stepOff();
    stage.wait(3);
    expect(replay(stage, jumpConfig('countermovement-jump'), () => 37)).toEqual(stage.outputs);
    expect(stage.of('trial-reviewed')).toHaveLength(1);
  });
});

describe('a squat jump', () => {
  it('begins from the hold', () => {
    const stage = jumpStage('squat-jump', wren);
    cued(stage);
    stage.wait(0.2);
    jump(stage, wren, jumpCurve({ weight, velocity: 2.3 }, 0));
    stage.wait(2);
    expect(stages(stage)).toEqual(['go', 'flight', 'landing', 'still']);
    expect(sure(stage)).toMatchObject({ verdict: 'counts', reasons: [] });
    expect(height(stage)).toBeCloseTo(0.2697, 2);
  });

  it('is refused with a dip, which is said', () => {
    const stage = jumpStage('squat-jump', wren);
    cued(stage);
    stage.wait(0.2);
    jump(stage, wren, jumpCurve({ weight, velocity: 2.3 }, 0.5));
    stage.wait(2);
    expect(sure(stage).verdict).toBe('repeat');
    expect(stage.of('verdict')[0]?.correction).toEqual({ for: 'squat_jump_dip', words: 'No dip: straight up' });
  });
});

describe('a drop jump', () => {
  /** From the plates to the box. */
  const toTheBox = (stage: Stage) => {
    stage.stepOff();
    stage.wait(2);
  };

  it('waits with empty plates, and is measured from the stance after the landing', () => {
    const stage = jumpStage('drop-jump', wren, {}, { jumpSetup: { boxHeight: 0.3 } });
    expect(stage.refusal({ order: 'advance' })).toBe('on-plates');
    toTheBox(stage);
    expect(stage.of('mark').filter(({ label }) => label === 'step-off')).toEqual([]);
    cued(stage);
    jump(stage, wren, dropCurve({ weight }));
    stage.stands(wren);
    stage.wait(3);
    expect(stages(stage)).toEqual(['go', 'flight', 'landing', 'still']);
    const trial = sure(stage);
    expect(trial).toMatchObject({ ended: 'released', reasons: [], jumpSetup: { boxHeight: 0.3 } });
    expect(trial.result.jump?.contacts).toHaveLength(1);
    expect(height(stage)).toBeCloseTo(0.2468, 2);
    expect(found(stage)).toEqual([]);
    expect(trial.verdict).toBe('counts');
  });

  it('is no drop jump when nobody jumps', () => {
    const stage = jumpStage('drop-jump', wren);
    toTheBox(stage);
    cued(stage);
    stage.stepOn(wren);
    stage.wait(3);
    expect(stage.closed).toEqual([]);
    expect(stage.phase).toBe('set-up');
    expect(stage.said('no-jump')).toBe(true);
  });

  it('cues hands-free only after somebody went from the plates to the box', () => {
    const stage = jumpStage('drop-jump', wren, { mode: 'hands-free' });
    stage.order({ order: 'arm' });
    stage.wait(8);
    expect(stage.phase).toBe('set-up');
    expect(stage.said('onto-the-box')).toBe(true);
    toTheBox(stage);
    expect(stage.until('cue-request', 10)).toBe(true);
    stage.sound();
    // Nobody jumps: no further cue before somebody was on the plates again.
    stage.wait(20);
    expect(stage.of('cue-request')).toHaveLength(1);
    expect(stage.phase).toBe('set-up');
    stage.wait(60);
    expect(stage.phase).toBe('waiting');
  });
});

describe('repeated hops', () => {
  it('are one trial with every contact', () => {
    const stage = jumpStage('repeated-hops', wren);
    cued(stage);
    stage.wait(0.2);
    jump(stage, wren, hopCurve({ weight }));
    stage.wait(2);
    const trial = sure(stage);
    expect(stage.closed).toHaveLength(1);
    expect(trial.result.jump?.contacts).toHaveLength(10);
    expect(stages(stage).filter((one) => one === 'flight')).toHaveLength(11);
    expect(stage.of('stage').at(-1)).toMatchObject({ stage: 'still', flights: 11 });
    expect(trial.verdict).toBe('counts');
  });
});
