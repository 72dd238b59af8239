import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpWeight, syntheticJump } from '../../../test/jumps.ts';
import { judgedJump, jumpSources, onlyJump } from '../../../test/uncertain-jumps.ts';
import { checkedRig } from '../../../test/uncertain-pulls.ts';
import type { JumpKind } from '../../index.ts';
import { type JudgedJump, type JumpMetricDefinition, jumpMetricRegistry, velocityNoise } from '../../jumps/index.ts';
import { jumpUncertainties, type PartId, sourcesOfJump, type Uncertainty, type UncertaintySources } from '../index.ts';
import type { CheckedRig } from '../sources.ts';

const metric = (id: string) => jumpMetricRegistry.get(id) as JumpMetricDefinition;

function have(judged: JudgedJump, id: string, sources: UncertaintySources): Uncertainty {
  const found = jumpUncertainties(judged, [metric(id)], sources)[id];
  if (!found?.ok) throw new Error(`${id}: ${found?.reason}`);
  return found.value;
}
const part = (found: Uncertainty, id: PartId) => found.parts.find((one) => one.id === id)?.standard ?? 0;
const numberOf = ({ jump }: JudgedJump, id: string) => {
  const measured = metric(id).compute(jump);
  if (!('value' in measured)) throw new Error(measured.reason);
  return measured.value;
};
const quiet: CheckedRig = { ...checkedRig, gain: 0, plateGain: 0, repeatability: 0, linearity: 0, growth: 0 };

/** The jump of the check values JP-01, threshold 10 N, 70 kg, on one plate. */
const synthetic = onlyJump(jumpRequest(syntheticJump(), 'countermovement-jump', { cue: 1000, jumps: 'jumps-10' }));
const near = (value: number, expected: number, share: number) =>
  expect(Math.abs(value / expected - 1), `${value} against ${expected}`).toBeLessThan(share);

/** How uncertain its take-off is, s: noise of the two samples around the crossing, over the 15367 N/s with which the force falls. */
function lateBy(noise: number): number {
  const share = synthetic.jump.events.takeOffExact % 1;
  return (noise * Math.hypot(share, 1 - share)) / 15367;
}

describe('body weight', () => {
  // JP-01, integrated by trapezoids in double precision: 1 N more makes 0.303410957 m of 0.307416666 m, take-off and onset held.
  it('of 1 N moves the height by 1.3 %', () => {
    const found = have(synthetic, 'jump_height', { weight: { standard: 1, seconds: 3, of: 'standing-before' } });
    near(part(found, 'body-weight'), 0.307416666 - 0.303410957, 0.006);
    near(part(found, 'body-weight') / 0.307416666, 0.013, 0.01);
  });

  // By hand: v = g (I / W - T), so dv/dW = -g I / W^2 with I the gross impulse, W (T + v / g).
  it('moves the velocity at take-off by (g T + v) / W for each newton', () => {
    const { weight } = jumpSources;
    const [v, T] = [numberOf(synthetic, 'take_off_velocity'), numberOf(synthetic, 'time_to_take_off')];
    near(
      part(have(synthetic, 'take_off_velocity', { weight: weight as never }), 'body-weight'),
      (9.81 * T + v) / jumpWeight,
      1e-4,
    );
  });

  it('moves the lowest position, and with it where braking ends', () => {
    // By hand: the instant where v = 0 moves by dv / a; here F - W is 787.5 N, v over 0.575 s of unweighting and braking.
    const found = have(synthetic, 'propulsion_time', { weight: { standard: 1, seconds: 3, of: 'standing-before' } });
    near(part(found, 'body-weight'), (9.81 * 0.576) / jumpWeight / (787.5 / 70), 0.02);
  });

  it('does not reach a flight time', () => {
    const found = have(synthetic, 'jump_height_flight_time', jumpSources);
    expect(part(found, 'body-weight')).toBe(0);
  });
});

describe('noise of single samples', () => {
  // JP-13, by hand from S sqrt(T dt) / m: 2 N over 0.9 s at 1000 Hz, 70 kg, 0.857143 mm/s; here over the jump's own time.
  it('of a velocity is S sqrt(T dt) / m', () => {
    expect(velocityNoise(2, 70, 0.9, 1000)).toBeCloseTo(0.857143e-3, 8);
    const found = have(synthetic, 'take_off_velocity', { noise: { total: 2 } });
    // The take-off moves too: noise of the two samples around the crossing, over the 15367 N/s with which the force falls.
    near(part(found, 'noise'), Math.hypot(velocityNoise(2, 70, 0.875, 1000), 9.81 * lateBy(2)), 0.03);
  });

  it('of a peak is S, of a mean of n samples S / sqrt(n)', () => {
    expect(part(have(synthetic, 'propulsion_peak_force', { noise: { total: 2 } }), 'noise')).toBeCloseTo(2, 9);
    // And the take-off, behind which the force is nothing: mean over length for each second of it.
    const found = have(synthetic, 'propulsion_mean_force', { noise: { total: 2 } });
    near(part(found, 'noise'), Math.hypot(2 / Math.sqrt(300), (1257.293 / 0.299) * lateBy(2)), 0.1);
  });

  it('is that of the empty plates in flight, not the sway of standing', () => {
    const noise = sourcesOfJump(synthetic.jump, {}).noise?.total ?? Number.NaN;
    expect(noise).toBe(synthetic.jump.events.threshold.flightSd);
    expect(noise).toBeLessThan(1.1);
  });
});

describe('whole samples', () => {
  // By hand: two instants, each somewhere within its sample, 1 / (sqrt(6) fs); h = g t^2 / 8, dh = g t dt / 4.
  it('are the part of a time that stays on a perfect plate', () => {
    const sources: UncertaintySources = { rig: quiet, noise: { total: 0 } };
    const time = part(have(synthetic, 'flight_time', sources), 'sampling');
    expect(time).toBeCloseTo(0.001 / Math.sqrt(6), 12);
  });

  it('reach a height from flight time by g t / 4: 1.226 mm for each ms at 0.5 s', () => {
    const found = have(synthetic, 'jump_height_flight_time', { rig: quiet, noise: { total: 0 } });
    expect(part(found, 'sampling')).toBeCloseTo(((9.81 * 0.511) / 4) * (0.001 / Math.sqrt(6)), 9);
    expect((9.81 * 0.5) / 4).toBeCloseTo(1.226, 3);
  });

  it('reach the velocity by g for each second that take-off lies elsewhere', () => {
    const found = have(synthetic, 'take_off_velocity', { rig: quiet, noise: { total: 0 } });
    near(part(found, 'sampling'), 9.81 * (0.001 / Math.sqrt(12)), 0.05);
  });
});

describe('errors of a rig', () => {
  const { judged } = judgedJump(2);
  const drop = judgedJump(2, { kind: 'drop' }).judged;
  const only = (rig: Partial<CheckedRig>): UncertaintySources => ({ rig: { ...quiet, ...rig }, noise: { total: 0 } });

  it('a gain common to all forces cancels in heights, velocities, times and per kilogram', () => {
    for (const [one, ids] of [
      [judged, ['jump_height', 'take_off_velocity', 'flight_time', 'rsi_modified', 'propulsion_peak_power_relative']],
      [judged, ['countermovement_depth', 'asymmetry_propulsion_impulse', 'propulsion_time']],
      [drop, ['drop_height', 'reactive_strength_index', 'contact_time']],
    ] as const)
      for (const id of ids) expect(part(have(one, id, only({ gain: 0.002 })), 'gain'), id).toBe(0);
  });

  it('moves forces, impulses, power and stiffness by its share', () => {
    for (const id of ['propulsion_peak_force', 'propulsion_impulse_net', 'propulsion_peak_power', 'braking_stiffness'])
      near(part(have(judged, id, only({ gain: 0.002 })), 'gain'), 0.002 * numberOf(judged, id), 0.01);
  });

  it('an offset of a loading cancels where W stood on the same loading, but for the mass', () => {
    // By hand: F - W stays, m = W / g grows by u / W; and the force falls under the threshold u / slope later. Two plates.
    const found = part(have(judged, 'take_off_velocity', only({ repeatability: 1.5 })), 'repeatability');
    const { forces, events } = judged.jump;
    const at = (back: number) => forces.total[events.takeOff - back] as number;
    const later = 9.80665 / ((1000 * (at(2) - at(0))) / 2);
    near(found, Math.SQRT2 * 1.5 * (numberOf(judged, 'take_off_velocity') / 706.08 + later), 0.02);
    // After a drop W is read from the next loading: the offset of the contact stays in its impulse.
    const after = part(have(drop, 'take_off_velocity', only({ repeatability: 1.5 })), 'repeatability');
    expect(after).toBeGreaterThan(0.1 * found);
    expect(part(have(drop, 'touchdown_velocity', only({ repeatability: 1.5 })), 'repeatability')).toBeGreaterThan(
      (Math.SQRT2 * 1.5 * 0.2) / 72,
    );
  });

  it('plates whose gains differ by 1 % give a false asymmetry of 0.5 points', () => {
    const even = judgedJump(4, { shareRight: 0.5 }).judged;
    const found = part(
      have(even, 'asymmetry_propulsion_impulse', only({ plateGain: 0.01 / Math.SQRT2 })),
      'plate-gain',
    );
    expect(found).toBeCloseTo(0.5, 2);
  });

  it('plates out of step reach what holds the sides against each other, and a sum only a little', () => {
    const sources: UncertaintySources = { ...only({}), synchronisation: 0.001 };
    expect(part(have(judged, 'asymmetry_braking_impulse', sources), 'synchronisation')).toBeGreaterThan(0.1);
    near(1 + part(have(judged, 'countermovement_depth', sources), 'synchronisation'), 1, 1e-4);
  });
});

describe('timing of the events', () => {
  it('stands beside the number: onset at 3 and 5 SD, threshold at the next one published', () => {
    const found = have(synthetic, 'jump_height', jumpSources);
    // JP-01: 0.307416666 m at 10 N, 0.309849896 m at 20 N.
    expect(found.flightTiming?.standard).toBeCloseTo((0.309849896 - 0.307416666) / 2, 8);
    expect(found.onsetTiming?.standard).toBeLessThan(1e-3);
    const sum = found.parts.reduce((all, { standard }) => all + standard ** 2, 0);
    expect(found.standard).toBeCloseTo(Math.sqrt(sum), 12);
  });

  it('a time from onset moves with the onset, a contact does not', () => {
    const { judged } = judgedJump(3);
    expect(have(judged, 'time_to_take_off', jumpSources).onsetTiming?.standard).toBeGreaterThan(0);
    const { judged: drop } = judgedJump(5, { kind: 'drop' });
    const found = have(drop, 'contact_time', jumpSources);
    expect(found.onsetTiming).toBeUndefined();
    expect(found.flightTiming?.standard).toBeGreaterThan(0);
  });
});

describe('the grid of samples', () => {
  // By the derivative: at its largest the velocity does not change, whatever the sample.
  it('hardly moves the peak velocity of a squat jump, though an onset after the push would leave it without', () => {
    for (const seed of [6, 7, 8]) {
      const { judged } = judgedJump(seed, { kind: 'squat' });
      expect(part(have(judged, 'peak_velocity', jumpSources), 'sampling')).toBeLessThan(0.005);
    }
  });
});

describe('an instant at the end of the recording', () => {
  const { judged: whole, request } = judgedJump(5);
  const landed = whole.jump.events.endOfLanding as number;
  const { forces } = request;
  const cut = (force: Float64Array | undefined, end: number) => force?.slice(0, end) as Float64Array;
  /** The same recording, stopped so many samples after the end of the landing. */
  const stopped = (after: number) => {
    const end = landed + after;
    const { total, left, right, plates } = forces;
    const short = {
      ...{ ...forces, sampleCount: end, total: cut(total, end), left: cut(left, end), right: cut(right, end) },
      plates: plates.map((plate) => ({ ...plate, force: cut(plate.force, end) })),
    };
    return onlyJump({ ...request, forces: short });
  };

  it.each([1, 2, 3])(
    'is moved to the one side there is: the file stops %d samples after the landing began to end',
    (after) => {
      const judged = stopped(after);
      expect(judged.jump.events.endOfLanding).toBe(landed);
      for (const id of ['jump_height', 'landing_impulse', 'landing_time']) {
        expect(numberOf(judged, id), id).toBe(numberOf(whole, id));
        const [short, long] = [have(judged, id, jumpSources), have(whole, id, jumpSources)];
        near(part(short, 'sampling'), part(long, 'sampling'), 0.05);
      }
    },
  );

  it.each([0, 1])('or the other: an onset that was placed at sample %d', (index) => {
    const onsetByHand = { index, by: 'somebody', reason: 'to see' };
    const judged = onlyJump({ ...request, onsetByHand });
    expect(judged.jump.onset).toMatchObject({ value: { index, rule: 'by-hand' } });
    const found = have(judged, 'time_to_take_off', jumpSources);
    // Onset and take-off, each somewhere within its sample: by hand, 1 / (sqrt(6) fs).
    expect(part(found, 'sampling')).toBeCloseTo(0.001 / Math.sqrt(6), 9);
    for (const id of ['jump_height', 'countermovement_depth'])
      expect(have(judged, id, jumpSources).standard).toBeGreaterThan(0);
  });
});

describe('all parts together', () => {
  it.each(['countermovement', 'squat', 'drop', 'repeated'] as const)('%s: every value has one', (kind: JumpKind) => {
    const { judged } = judgedJump(6, { kind });
    const metrics = jumpMetricRegistry.all.filter(({ kinds }) => kinds.includes(kind));
    const found = jumpUncertainties(judged, metrics, jumpSources);
    expect(Object.keys(found)).toEqual(metrics.map(({ id }) => id));
    for (const { id, compute } of metrics) {
      const one = found[id];
      if (!('value' in compute(judged.jump)) || id === 'hop_count') {
        expect(one?.ok, id).toBe(false);
        continue;
      }
      if (!one?.ok) throw new Error(`${id}: ${one?.reason}`);
      expect(one.value.standard, id).toBeGreaterThan(0);
      expect(one.value.expanded).toBe(2 * one.value.standard);
      expect(one.value.unknown).toEqual([]);
    }
  });

  it('what is not known is named where it may matter', () => {
    const { judged } = judgedJump(7);
    const unknown = (id: string) => have(judged, id, sourcesOfJump(judged.jump, {})).unknown.map((one) => one.id);
    expect(unknown('jump_height')).toEqual(expect.arrayContaining(['repeatability', 'linearity', 'synchronisation']));
    expect(unknown('jump_height')).not.toContain('gain');
    expect(unknown('propulsion_peak_force')).toContain('gain');
    expect(unknown('propulsion_peak_force')).not.toContain('body-weight');
  });

  it('asked of one value it is the same as asked of all', () => {
    const { judged } = judgedJump(8);
    const all = jumpUncertainties(judged, jumpMetricRegistry.all, jumpSources).jump_height;
    const one = jumpUncertainties(judged, [metric('jump_height')], jumpSources).jump_height;
    if (!all?.ok || !one?.ok) throw new Error('no uncertainty');
    near(one.value.standard, all.value.standard, 1e-3);
  });
});

describe('how sure W is', () => {
  it('seconds before the jump, and where there is only one, the one after the landing', () => {
    expect(sourcesOfJump(judgedJump(9).judged.jump, {}).weight).toMatchObject({ of: 'standing-before', seconds: 2 });
    expect(sourcesOfJump(judgedJump(9, { quiet: 1.2 }).judged.jump, {}).weight).toMatchObject({
      of: 'standing-both',
      seconds: 2,
    });
    expect(sourcesOfJump(judgedJump(9, { kind: 'drop' }).judged.jump, {}).weight).toMatchObject({
      of: 'standing-after',
    });
  });

  it('a second is missing: nothing is known', () => {
    const short = judgedJump(9, { quiet: 1.2, after: 0.5 }).judged.jump;
    expect(short.stance.ok).toBe(false);
    expect(sourcesOfJump(short, {}).weight).toBeUndefined();
  });
});
