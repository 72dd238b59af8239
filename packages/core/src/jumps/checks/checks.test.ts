import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpTrial, jumpWeight, syntheticJump, throughNodes } from '../../../test/jumps.ts';
import { forcesOfCurve } from '../../../test/pulls.ts';
import type { AnalysisRequest } from '../../analysis/index.ts';
import type { CheckResult } from '../../checks/check.ts';
import type { Forces } from '../../recording/index.ts';
import { jumpCheckRegistry } from './index.ts';

/** The synthetic jump, changed sample by sample. */
const changed = (change: (force: number, i: number) => number): Float64Array => syntheticJump().map(change);

function check(
  id: string,
  force: Float64Array | Forces,
  more: Partial<AnalysisRequest> & { test?: string } = {},
): CheckResult {
  const { test = 'countermovement-jump', ...rest } = more;
  const found = jumpTrial(jumpRequest(force, test, { cue: 1000, jumps: 'jumps-10', ...rest })).checks[id];
  if (found === undefined) throw new Error(`There is no ${id}.`);
  return found;
}

/** A squat jump held for 2 s, with a dip down to a force before the push; a ripple of 1 N while held. */
function squat(lowest: number): Float64Array {
  const force = throughNodes([
    [0, jumpWeight],
    [2, jumpWeight],
    [2.05, lowest],
    [2.1, jumpWeight],
    [2.3, 1500],
    [2.45, 1500],
    [2.5, 0],
    [2.95, 0],
    [3, 2200],
    [3.2, 900],
    [3.3, jumpWeight],
    [5, jumpWeight],
  ]);
  return force.map((value, i) => value + (i < 2000 ? (i % 2 === 0 ? 1 : -1) : 0));
}

describe('checks of the weighing', () => {
  it('pass a quiet second, and fail an unquiet, a drifting and an uneven one', () => {
    for (const id of ['weighing_window', 'weighing_steady', 'weighing_slope', 'weighing_halves'])
      expect(check(id, syntheticJump()).status, id).toBe('pass');
    // SD of 8 N is 1.17 % of W.
    const loud = changed((force, i) => (i < 1000 ? force + (i % 2 === 0 ? 6 : -6) : force));
    expect(check('weighing_steady', loud)).toMatchObject({ status: 'fail', limit: 1 });
    // 6 N over one second is 0.87 % of W.
    const drifting = changed((force, i) => (i < 1000 ? force + (6 * (i - 500)) / 1000 : force));
    const slope = check('weighing_slope', drifting);
    expect(slope.status).toBe('fail');
    expect(slope.value).toBeCloseTo((100 * 6) / jumpWeight, 1);
    // A step of 2 N in the middle is 0.29 % of W.
    const stepped = changed((force, i) => (i >= 500 && i < 1000 ? force + 2 : force));
    expect(check('weighing_halves', stepped)).toMatchObject({ status: 'fail', limit: 0.25 });
  });

  it('fail where nobody stands still, and values that need a weight say why', () => {
    const restless = changed((force, i) => (i < 1000 ? force + 150 * Math.sin(i / 40) : force));
    const trial = jumpTrial(jumpRequest(restless, 'countermovement-jump'));
    expect(trial.checks.weighing_window).toMatchObject({ status: 'fail', value: 1 });
    expect(trial.metrics.jump_height).toMatchObject({ reason: 'no-quiet-window' });
    expect(trial.metrics.jump_height_flight_time).toHaveProperty('value');
  });

  it('hold the weight against the weighing of the session, and nothing else', () => {
    const known = (value: number, from: 'weighing' | 'given') =>
      check('weight_agreement', syntheticJump(), { bodyWeight: { value, from } });
    expect(known(687, 'weighing').status).toBe('pass');
    expect(known(691, 'weighing')).toMatchObject({ status: 'warn', limit: 0.5 });
    expect(known(691, 'given').status).toBe('not-judged');
  });
});

describe('checks of the beginning', () => {
  // JP-04 of the methods reference: 686.7 N, lowest force 610, 640 and 670 N.
  it.each([
    [610, 'fail', 11.169],
    [640, 'warn', 6.801],
    [670, 'pass', 2.432],
  ] as const)('a squat jump that is unloaded to %d N: %s', (lowest, status, share) => {
    const found = check('squat_jump_dip', squat(lowest), { test: 'squat-jump', cue: 1900 });
    expect(found.status).toBe(status);
    expect(Math.abs((found.value ?? 0) - share)).toBeLessThan(0.01);
  });

  it('a squat that is not held still warns', () => {
    const shaking = squat(686).map((force, i) => (i > 1500 && i < 2000 ? force + 25 * Math.sin(i / 10) : force));
    expect(check('squat_jump_hold', squat(686), { test: 'squat-jump', cue: 1400 }).status).toBe('pass');
    const trial = jumpTrial(
      jumpRequest(shaking, 'squat-jump', { cue: 1400, onsetByHand: { index: 2000, by: 'A', reason: 'b' } }),
    );
    expect(trial.checks.squat_jump_hold?.status).toBe('warn');
  });

  it('a beginning that stops for 0.2 s is none', () => {
    const stopped = (seconds: number) => {
      const force = syntheticJump();
      const end = Math.round(1000 * seconds);
      const bump = Float64Array.from({ length: 40 + end }, (_, i) => jumpWeight + (i < 40 ? -30 : 0));
      return Float64Array.from([...force.subarray(0, 1000), ...bump, ...force.subarray(1000)]);
    };
    expect(check('jump_false_start', stopped(0.1)).status).toBe('pass');
    expect(check('jump_false_start', stopped(0.25))).toMatchObject({ status: 'fail', limit: 0.2 });
  });

  it('a jump before the cue warns', () => {
    expect(check('jump_early', syntheticJump()).status).toBe('pass');
    expect(check('jump_early', syntheticJump(), { cue: 1200 }).status).toBe('warn');
    expect(jumpTrial(jumpRequest(syntheticJump(), 'countermovement-jump')).checks.jump_early?.notJudged).toBe('no-cue');
  });

  it('a squat jump in the test of countermovement jumps fails', () => {
    expect(check('no_countermovement', squat(686), { cue: 1900 })).toMatchObject({ status: 'fail', limit: 3 });
    expect(check('no_countermovement', syntheticJump()).value).toBeCloseTo(33.75, 1);
  });
});

describe('checks of flight and landing', () => {
  it('a flight under 0.15 s fails', () => {
    const short = Float64Array.from([
      ...syntheticJump().subarray(0, 1855),
      ...Array(120).fill(0),
      ...syntheticJump().subarray(2361),
    ]);
    expect(check('flight_length', short)).toMatchObject({ status: 'fail', limit: 0.15 });
    expect(check('flight_length', syntheticJump())).toMatchObject({ status: 'pass', value: 0.511 });
  });

  it('heights that disagree warn', () => {
    // 1 cm of 31 cm lies within both limits; a flight longer by 60 ms does not.
    expect(check('height_agreement', syntheticJump()).status).toBe('pass');
    const long = Float64Array.from([
      ...syntheticJump().subarray(0, 2000),
      ...Array(60).fill(0),
      ...syntheticJump().subarray(2000),
    ]);
    expect(check('height_agreement', long).status).toBe('warn');
  });

  it('a velocity that stays after the landing warns', () => {
    const standing = Float64Array.from([...syntheticJump(), ...Array(1500).fill(jumpWeight)]);
    const found = check('rest_after_landing', standing);
    // The landing of the synthetic jump takes away less than the fall brought: the velocity that stays is what is left.
    expect(found.status).toBe('warn');
    expect(check('rest_after_landing', syntheticJump()).notJudged).toBe('too-short');
  });
});

describe('checks of the samples', () => {
  const withRange = (high: number): Forces => {
    const total = syntheticJump();
    return forcesOfCurve(total, 1000, { plates: [{ name: 'plate', side: 'none', force: total, range: [0, high] }] });
  };

  it('a plate at its limit fails, one that says no range is not judged', () => {
    expect(check('jump_saturation', withRange(5000)).status).toBe('pass');
    expect(check('jump_saturation', withRange(2480))).toMatchObject({ status: 'fail', limit: 0 });
    expect(check('jump_saturation', syntheticJump()).notJudged).toBe('not-in-file');
  });

  it('missing samples fail in the push from 3 ms on, and warn elsewhere from 6 ms on', () => {
    const gap = (start: number, length: number, open = false) => {
      const span = { start, end: start + length };
      return forcesOfCurve(syntheticJump(), 1000, { gaps: { filled: open ? [] : [span], open: open ? [span] : [] } });
    };
    expect(check('jump_gap', gap(1500, 2)).status).toBe('pass');
    expect(check('jump_gap', gap(1500, 3))).toMatchObject({ status: 'fail', limit: 2 });
    expect(check('jump_gap', gap(2400, 5)).status).toBe('pass');
    expect(check('jump_gap', gap(2400, 8, true))).toMatchObject({ status: 'warn', limit: 5 });
  });

  it('too few samples a second warn and fail', () => {
    const at = (rate: number) => {
      const step = 1000 / rate;
      const every = syntheticJump().filter((_, i) => i % step === 0);
      return check('jump_sample_rate', forcesOfCurve(every, rate), { cue: rate }).status;
    };
    expect([at(1000), at(500), at(250), at(125)]).toEqual(['pass', 'pass', 'warn', 'fail']);
  });

  it('the other foot fails a jump on one leg', () => {
    const total = syntheticJump();
    const forces = (other: number): Forces => ({
      ...forcesOfCurve(total),
      left: total.map((force) => Math.max(0, force - other)),
      right: total.map((force) => Math.min(other, Math.max(0, force))),
    });
    const found = (other: number) => check('jump_other_foot', forces(other), { test: 'countermovement-jump-left' });
    expect(found(5).status).toBe('pass');
    expect(found(40)).toMatchObject({ status: 'fail', limit: 20 });
  });
});

it('judges every check in one of these tests or in those of drop jumps and simulated jumps', () => {
  // A new check must be put here and tested.
  expect(jumpCheckRegistry.all.map(({ id }) => id).sort()).toEqual(
    [
      ...['weighing_window', 'weighing_steady', 'weighing_slope', 'weighing_halves', 'weight_agreement'],
      ...[
        'jump_false_start',
        'squat_jump_dip',
        'squat_jump_dip_depth',
        'squat_jump_hold',
        'no_countermovement',
        'jump_early',
      ],
      ...['zero_in_flight', 'flight_length', 'height_agreement', 'rest_after_landing'],
      ...['contact_length', 'drop_from_box', 'hops_enough', 'jump_other_foot'],
      ...['jump_saturation', 'jump_gap', 'jump_sample_rate'],
    ].sort(),
  );
});
