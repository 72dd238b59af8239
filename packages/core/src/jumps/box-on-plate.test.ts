import { describe, expect, it } from 'vitest';
import { jumpRequest, jumpTrial, throughNodes, valueIn } from '../../test/jumps.ts';
import { forcesOfCurve } from '../../test/pulls.ts';
import { judgedJump, jumpSources, onlyJump } from '../../test/uncertain-jumps.ts';
import { analyse } from '../analysis/index.ts';
import { seededRandom, simulateJump } from '../simulation/index.ts';
import { drawJumpMetrics, jumpUncertainties, type SampleNoise, sourcesOfJump } from '../uncertainty/index.ts';
import { type JumpMetricDefinition, jumpMetricRegistry } from './metrics/index.ts';

const near = (value: number, expected: number, tolerance: number) =>
  expect(Math.abs(value - expected), `${value} against ${expected}`).toBeLessThanOrEqual(tolerance);

/**
 * Worked by hand, 70 kg at 9.81 m/s^2, 1000 Hz: standing on the box for 2 s, weight gone in 0.1 s (0.4905 m/s), 0.18 s of fall (1.7658 m/s
 * more), then contact, flight and landing of the check values JP-06b.
 */
const untilLanding: readonly (readonly [number, number])[] = [
  [0, 686.7],
  [2, 686.7],
  [2.1, 0],
  [2.28, 0],
  [2.38, 4634.41],
  [2.48, 0],
  [2.969, 0],
  [3.069, 2034.24],
];
const force = throughNodes([...untilLanding, [3.269, 686.7], [5.18, 686.7]]);
const setup = { jumpSetup: { boxHeight: 0.3 } };
const onBox = jumpTrial(jumpRequest(force, 'drop-jump', { jumps: 'jumps-box-plate', ...setup }));

describe('a drop jump from a box that stands on a plate', () => {
  it('is weighed on the box, and falls as the sum of the plates says', () => {
    expect(onBox.jump?.weighing).toMatchObject({ ok: true, value: { place: 'before' } });
    expect(onBox.jump?.phases.map(({ definition }) => definition)).toContain('stand-on-box');
    near(valueIn(onBox, 'system_weight'), 686.7, 1e-9);
    const touchdown = onBox.jump?.firstTouchdown ?? 0;
    expect(touchdown).toBe(2281);
    // The fall counts with F = 0 up to the sample before; that of the touchdown has 46.3441 N of its millisecond. Where the fall begins (the
    // last sample over the threshold of 1 N) 0.5 ms of 6.867 N count.
    const fall = 0.4905 + 1.7658 + 9.81e-3 - (0.0005 * 46.3441) / 70;
    near(valueIn(onBox, 'touchdown_velocity'), -fall, 2e-5);
    near(valueIn(onBox, 'drop_height'), fall ** 2 / 19.62, 1e-5);
  });

  it('agrees with the one-plate method, which reads the same fall from the landing', () => {
    const after = jumpTrial(jumpRequest(force, 'drop-jump', { jumps: 'jumps', ...setup }));
    expect(after.jump?.weighing).toMatchObject({ ok: true, value: { place: 'after' } });
    // The record was made so that v_td is -2.258585 m/s in one (JP-06b) and -2.2563 m/s at the first contact in the other.
    near(valueIn(onBox, 'touchdown_velocity'), valueIn(after, 'touchdown_velocity'), 0.003);
    near(valueIn(onBox, 'jump_height'), valueIn(after, 'jump_height'), 0.001);
    expect(valueIn(onBox, 'contact_time')).toBe(valueIn(after, 'contact_time'));
  });

  const small: readonly (readonly [number, number])[] = [
    // 0.2 s after the landing off the plates again, for 0.13 s.
    [3.169, 0],
    [3.299, 0],
    [3.349, 1600],
  ];
  it.each([
    ['a small hop 0.2 s after the landing', [...small, [3.449, 686.7], [5.18, 686.7]]],
    ['two of them', [...small, [3.549, 0], [3.679, 0], [3.729, 1600], [3.829, 686.7], [5.18, 686.7]]],
    // The first 0.7 s after the landing, no bounce any more, and the second soon after it.
    [
      'two late ones',
      [
        ...([
          [3.269, 686.7],
          [3.6, 1000],
          [3.669, 0],
          [3.799, 0],
          [3.849, 1600],
        ] as const),
        ...([
          [4.049, 0],
          [4.179, 0],
          [4.229, 1600],
          [4.329, 686.7],
          [5.18, 686.7],
        ] as const),
      ],
    ],
  ] as const)('takes nothing from the jump, nor is it one: %s', (_, after) => {
    const hopped = throughNodes([...untilLanding, ...after]);
    const request = jumpRequest(hopped, 'drop-jump', { jumps: 'jumps-box-plate', efforts: 'all', ...setup });
    const { trials } = analyse(request);
    expect(trials).toHaveLength(1);
    expect(analyse({ ...request, efforts: 'largest' }).trials.map(({ metrics }) => metrics)).toEqual([
      trials[0]?.metrics,
    ]);
    for (const id of ['touchdown_velocity', 'jump_height', 'contact_time', 'flight_time'])
      expect(valueIn(trials[0]!, id), id).toBe(valueIn(onBox, id));
  });

  it('needs nobody to stand still after the landing', () => {
    const cut = force.slice(0, 3300);
    near(
      valueIn(jumpTrial(jumpRequest(cut, 'drop-jump', { jumps: 'jumps-box-plate' })), 'jump_height'),
      valueIn(onBox, 'jump_height'),
      1e-9,
    );
    expect(jumpTrial(jumpRequest(cut, 'drop-jump')).metrics.jump_height).toHaveProperty('reason');
  });

  it('without a plate under the box has the reason', () => {
    const empty = force.map((value, i) => (i < 2200 ? 0 : value));
    const trial = jumpTrial(jumpRequest(empty, 'drop-jump', { jumps: 'jumps-box-plate' }));
    expect(trial.metrics.touchdown_velocity).toMatchObject({ reason: 'no-quiet-window' });
    expect(trial.metrics).not.toMatchObject({ contact_time: { reason: expect.anything() } });
  });

  it('is summed up from the stand on the box: samples missing there fail from 3 ms on', () => {
    const missing = (at: number) => {
      const filled = [{ start: at, end: at + 3 }];
      const forces = forcesOfCurve(force, 1000, { gaps: { filled, open: [] } });
      return (jumps: string) =>
        jumpTrial(jumpRequest(forces, 'drop-jump', { jumps, ...setup })).checks.jump_gap?.status;
    };
    expect(missing(2050)('jumps-box-plate')).toBe('fail');
    expect(missing(2050)('jumps')).toBe('pass');
    expect(missing(3100)('jumps-box-plate')).toBe('pass');
  });

  it('is found again in its own span, to the last digit', () => {
    const twice = new Float64Array([...force, ...force]);
    const request = jumpRequest(forcesOfCurve(twice), 'drop-jump', { jumps: 'jumps-box-plate', efforts: 'all' });
    const { trials } = analyse(request);
    expect(trials).toHaveLength(2);
    for (const trial of trials)
      expect(analyse({ ...request, efforts: 'largest', span: trial.span }).trials).toEqual([trial]);
  });
});

/** A simulated drop whose box stands on a plate: standing, weight gone in 0.1 s, and a fall as fast as the simulated one. */
function fromBox(height: number, seed: number) {
  const { left, right, truth } = simulateJump({ kind: 'drop', dropHeight: height, plateNoise: 0.4, sway: 0 }, seed);
  const { weight, parameters, contacts } = truth;
  const speed = Math.sqrt(2 * parameters.gravity * height);
  const air = speed / parameters.gravity - 0.05;
  const leaves = (contacts[0]?.[0] ?? 0) - air;
  const random = seededRandom(seed, 3);
  const standing = 2000;
  const box = Float64Array.from({ length: standing + left.length }, (_, i) => {
    const share = Math.min(1, Math.max(0, (leaves - (i - standing) / 1000) / 0.1));
    return weight * share + 0.4 * random.gaussian();
  });
  const before = (side: Float64Array) =>
    Float64Array.from({ length: box.length }, (_, i) => side[i - standing] ?? 0.4 * random.gaussian());
  const plates = { left: before(left), right: before(right), box };
  const total = box.map((value, i) => value + (plates.left[i] as number) + (plates.right[i] as number));
  return { total, plates, truth };
}

it.each([0.2, 0.3, 0.45])('finds the fall of %d m of simulated jumps within their uncertainty', (height) => {
  const { total, truth } = fromBox(height, 5);
  const request = jumpRequest(total, 'drop-jump', { jumps: 'jumps-box-plate', gravity: truth.parameters.gravity });
  const metrics = ['drop_height', 'jump_height'].map((id) => jumpMetricRegistry.get(id) as JumpMetricDefinition);
  const noise = { total: 0.4 * Math.sqrt(3) };
  const weight = { standard: noise.total / Math.sqrt(1000), seconds: 2, of: 'standing-before' } as const;
  const found = jumpUncertainties(onlyJump(request), metrics, { noise, weight });
  const trial = jumpTrial(request);
  for (const [id, exact] of [
    ['drop_height', height],
    ['jump_height', truth.height],
  ] as const) {
    const one = found[id];
    if (!one?.ok) throw new Error(id);
    // The first sample over the threshold lies after the contact by up to a millisecond and what the force needs to pass it.
    near(valueIn(trial, id), exact, 3 * one.value.standard + 0.002 * Math.sqrt(19.62 * height));
  }
});

it('has an uncertainty that draws agree with', () => {
  const { total, truth } = fromBox(0.3, 6);
  const { gravity } = truth.parameters;
  const judged = onlyJump(jumpRequest(total, 'drop-jump', { jumps: 'jumps-box-plate', gravity }));
  const metrics = ['touchdown_velocity', 'drop_height', 'jump_height', 'propulsion_peak_power'].map(
    (id) => jumpMetricRegistry.get(id) as JumpMetricDefinition,
  );
  const sources = { ...jumpSources, noise: { total: 0.8 } };
  const propagated = jumpUncertainties(judged, metrics, sources);
  const drawn = drawJumpMetrics(judged, metrics, sources, 800, seededRandom(8, 0));
  for (const { id } of metrics) {
    const one = propagated[id];
    if (!one?.ok) throw new Error(id);
    // 800 draws: 2.5 % of the SD; times four.
    near((drawn[id]?.standard ?? Number.NaN) / one.value.standard, 1, 0.1);
  }
});

it('tells the noise of the plate under the box from that of the sides, and the sum has both', () => {
  const { plates, truth } = fromBox(0.3, 9);
  const random = seededRandom(10, 3);
  const box = plates.box.map((value) => value + 2 * random.gaussian());
  const { left, right } = plates;
  const forces = forcesOfCurve(
    box.map((value, i) => value + (left[i] as number) + (right[i] as number)),
    1000,
    {
      ...{ left, right },
      plates: [
        { name: 'left', side: 'left', force: left },
        { name: 'right', side: 'right', force: right },
        { name: 'box', side: 'none', force: box },
      ],
    },
  );
  const { gravity } = truth.parameters;
  const judged = onlyJump(jumpRequest(forces, 'drop-jump', { jumps: 'jumps-box-plate', gravity }));
  const noise = sourcesOfJump(judged.jump, {}).noise;
  // 300 samples of flight: an SD is known to 4 %, a share of it to 5 %; four times both together.
  near((noise?.left ?? 0) / 0.4, 1, 0.25);
  near((noise?.right ?? 0) / 0.4, 1, 0.25);
  near((noise?.total ?? 0) / Math.sqrt(2 ** 2 + 3 * 0.4 ** 2), 1, 0.16);
  const peak = jumpMetricRegistry.get('contact_peak_force') as JumpMetricDefinition;
  const found = jumpUncertainties(judged, [peak], { noise: noise as SampleNoise }).contact_peak_force;
  if (!found?.ok) throw new Error('no uncertainty');
  const part = found.value.parts.find(({ id }) => id === 'noise')?.standard ?? 0;
  // S of the sum; a sample beside the peak that noise lifts past it adds 0.08 %. The sides alone have 26 % of S.
  near(part / (noise?.total ?? 0), 1, 0.002);
});

it('leaves other jumps as they are', () => {
  const { request } = judgedJump(7);
  const { jumpMethod: _, ...plain } = request;
  const same = jumpTrial({
    ...plain,
    jumpMethod: jumpRequest(force, 'drop-jump', { jumps: 'jumps-box-plate' }).jumpMethod!,
  });
  expect(same.metrics).toEqual(jumpTrial(request).metrics);
});
