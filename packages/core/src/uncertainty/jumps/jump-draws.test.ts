import { describe, expect, it } from 'vitest';
import { jumpRequest, syntheticJump } from '../../../test/jumps.ts';
import { judgedJump, jumpSources, onlyJump } from '../../../test/uncertain-jumps.ts';
import { checkedRig } from '../../../test/uncertain-pulls.ts';
import { hopStiffness, type JudgedJump, type JumpMetricDefinition, jumpMetricRegistry } from '../../jumps/index.ts';
import { type JumpSpec, type JumpTruth, seededRandom } from '../../simulation/index.ts';
import { drawJumpMetrics, jumpUncertainties, type Uncertainty, type UncertaintySources } from '../index.ts';

/**
 * The SD of 600 draws is itself known to 2.9 % (1 / sqrt(2 n)); 11.6 % leaves that four times over. Each kind with the values whose whole
 * samples matter little: the draws have the grid of one recording, and there an instant jumps by whole samples.
 */
const draws = 600;
const tolerance = 0.116;

const kinds = {
  countermovement: [
    'jump_height',
    'jump_height_with_rise',
    'jump_height_work_energy',
    'rsi_modified',
    'take_off_velocity',
    'jump_momentum',
    'peak_velocity',
    'peak_negative_velocity',
    'countermovement_depth',
    'unweighting_impulse_net',
    'propulsion_impulse_net',
    'jump_impulse_net',
    'propulsion_peak_force',
    'propulsion_mean_force',
    'propulsion_peak_power',
    'propulsion_peak_power_relative',
    'propulsion_mean_power',
    'landing_peak_force',
    'asymmetry_propulsion_impulse',
    'asymmetry_landing_peak_force',
    'left_propulsion_impulse',
    'system_weight',
  ],
  squat: ['jump_height', 'take_off_velocity', 'propulsion_mean_power', 'propulsion_impulse_net', 'system_mass'],
  drop: [
    'jump_height',
    'reactive_strength_index_impulse',
    'touchdown_velocity',
    'drop_height',
    'contact_peak_force',
    'braking_stiffness',
    'propulsion_peak_power',
    'asymmetry_propulsion_impulse',
  ],
} as const;

const metricsOf = (ids: readonly string[]) => ids.map((id) => jumpMetricRegistry.get(id) as JumpMetricDefinition);

function known(found: ReturnType<typeof jumpUncertainties>, id: string): Uncertainty {
  const one = found[id];
  if (!one?.ok) throw new Error(`${id}: ${one?.reason}`);
  return one.value;
}

/** Without the part that draws on one grid do not have. */
const offGrid = ({ standard, parts }: Uncertainty): number =>
  Math.sqrt(standard ** 2 - (parts.find(({ id }) => id === 'sampling')?.standard ?? 0) ** 2);

// JCGM 101:2008: propagation of distributions by draws, seeded; every source normal.
describe('propagation agrees with draws of everything at once', () => {
  it.each(['countermovement', 'squat', 'drop'] as const)('%s', (kind) => {
    const { judged } = judgedJump(11, { kind });
    const metrics = metricsOf(kinds[kind]);
    const propagated = jumpUncertainties(judged, metrics, jumpSources);
    const drawn = drawJumpMetrics(judged, metrics, jumpSources, draws, seededRandom(12, 0));
    for (const { id } of metrics) {
      const { standard: whole } = known(propagated, id);
      const sd = drawn[id]?.standard ?? Number.NaN;
      expect(sd / offGrid(known(propagated, id)), `${id}: draws over propagated, no grid`).toBeGreaterThan(
        1 - tolerance,
      );
      expect(sd / whole, `${id}: draws over propagated`).toBeLessThan(1 + tolerance);
    }
  });

  it('with a zero that had drifted and was taken off', () => {
    const { judged } = judgedJump(13, { zero: 4, plateNoise: 0.4 });
    expect(judged.jump.events.threshold.zeroOffset).toBeGreaterThan(5);
    const metrics = metricsOf(['jump_height', 'take_off_velocity', 'propulsion_peak_power', 'system_weight']);
    const propagated = jumpUncertainties(judged, metrics, jumpSources);
    const drawn = drawJumpMetrics(judged, metrics, jumpSources, draws, seededRandom(14, 0));
    for (const { id } of metrics)
      expect(Math.abs((drawn[id]?.standard ?? 0) / known(propagated, id).standard - 1), id).toBeLessThan(tolerance);
  });

  describe('values that hang on the instant of the fastest descent', () => {
    const metrics = metricsOf(['unweighting_time', 'braking_time', 'braking_mean_force', 'braking_rfd']);
    const ratios = (judged: JudgedJump) => {
      const propagated = jumpUncertainties(judged, metrics, jumpSources);
      const drawn = drawJumpMetrics(judged, metrics, jumpSources, draws, seededRandom(12, 0));
      return metrics.map(({ id }) => (drawn[id]?.standard ?? Number.NaN) / known(propagated, id).standard);
    };

    it('agree where the force passes W steeply', () => {
      const request = jumpRequest(syntheticJump(), 'countermovement-jump', { cue: 1000, jumps: 'jumps-10' });
      for (const ratio of ratios(onlyJump(request))) {
        // Where all errors together stay within a sample, draws on one grid move the instant less often than they should.
        expect(ratio).toBeGreaterThan(0.65);
        expect(ratio).toBeLessThan(1.15);
      }
    });

    it('scatter by up to 60 % more where it does so with next to no slope', () => {
      // As in simulated jumps: noise then finds other instants than first order says.
      for (const ratio of ratios(judgedJump(11).judged)) {
        expect(ratio).toBeGreaterThan(0.9);
        expect(ratio).toBeLessThan(1.6);
      }
    });
  });

  it('are the same for the same seed', () => {
    const { judged } = judgedJump(11);
    const of = (seed: number) =>
      drawJumpMetrics(judged, metricsOf(['jump_height']), jumpSources, 10, seededRandom(seed, 0));
    expect(of(1)).toEqual(of(1));
    expect(of(1)).not.toEqual(of(2));
  });
});

/**
 * Nothing of the propagation or of its draws: new recordings of one and the same jump, begun and ended at another place between two samples each time,
 * with gains, offsets of the loadings and white noise, analysed from the samples on.
 */
describe('propagation agrees with the whole analysis of made-up recordings', () => {
  const runs = 400;
  // The SD of 400 runs is known to 3.5 %; times four.
  const within = 0.14;
  const noise = 0.6;
  const rate = 1000;
  const sources: UncertaintySources = {
    rig: { ...checkedRig, linearity: 0, growth: 0 },
    synchronisation: 0,
    noise: { total: noise * Math.SQRT2, left: noise, right: noise },
    // W is the mean of a second of white noise, and nobody sways.
    weight: { standard: (noise * Math.SQRT2) / Math.sqrt(rate), seconds: 3, of: 'standing-before' },
  };

  /** Jumps whose times are a little other each time, so that no two instants lie alike between two samples. */
  const cases = {
    countermovement: {
      spec: (jitter: number): JumpSpec => ({ landingDrop: 0.02 + 0.002 * jitter }),
      ids: [
        'jump_height',
        'jump_height_flight_time',
        'flight_time',
        'take_off_velocity',
        'countermovement_depth',
        'propulsion_mean_force',
        'propulsion_peak_power',
        'asymmetry_propulsion_impulse',
        'left_propulsion_impulse',
      ],
    },
    drop: {
      spec: (jitter: number): JumpSpec => ({ kind: 'drop', contactTime: 0.197 + 0.001 * jitter }),
      ids: [
        'contact_time',
        'reactive_strength_index',
        'reactive_strength_ratio',
        'drop_height',
        'touchdown_velocity',
        'jump_height',
      ],
    },
    repeated: {
      spec: (jitter: number): JumpSpec => ({ kind: 'repeated', contactTime: 0.191 + 0.001 * jitter, height: 0.2761 }),
      ids: ['hop_rsi_mean', 'hop_stiffness_best_five'],
    },
  } as const;

  /** What a perfect measurement of that jump would give, where it is not the same in each. */
  const exact: Readonly<Record<string, (truth: JumpTruth) => number>> = {
    flight_time: ({ flightTime }) => flightTime,
    jump_height_flight_time: ({ flightTime, parameters: { gravity } }) => (gravity * flightTime ** 2) / 8,
    contact_time: ({ parameters }) => parameters.contactTime,
    reactive_strength_ratio: ({ flightTime, parameters }) => flightTime / parameters.contactTime,
    reactive_strength_index: ({ flightTime, parameters: { gravity, contactTime } }) =>
      (gravity * flightTime ** 2) / 8 / contactTime,
    hop_rsi_mean: ({ flightTime, parameters: { gravity, contactTime } }) =>
      (gravity * flightTime ** 2) / 8 / contactTime,
    hop_stiffness_best_five: ({ flightTime, parameters: { mass, contactTime } }) =>
      hopStiffness(mass, contactTime, flightTime),
  };

  it.each(['countermovement', 'drop', 'repeated'] as const)('%s', (kind) => {
    const { spec, ids } = cases[kind];
    const metrics = metricsOf(ids);
    const random = seededRandom(21, 0);
    const found: number[][] = [];
    for (let run = 0; run < runs; run++) {
      const one = { ...spec(random.uniform()), quiet: 2.5 + random.uniform() / rate, plateNoise: 0 };
      const { judged, truth } = judgedJump(1, one, { jumps: 'jumps-10' }, (plates) => disturb(plates, random));
      found.push(
        metrics.map(({ id, compute }) => {
          const measured = compute(judged.jump);
          return 'value' in measured ? measured.value - (exact[id]?.(truth) ?? 0) : Number.NaN;
        }),
      );
    }
    const { judged } = judgedJump(3, { ...spec(0.5), plateNoise: noise }, { jumps: 'jumps-10' });
    const propagated = jumpUncertainties(judged, metrics, sources);
    metrics.forEach(({ id }, at) => {
      const values = found.map((one) => one[at] as number);
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
      const ratio = sd / known(propagated, id).standard;
      expect.soft(Math.abs(ratio - 1), `${id}: ${ratio}`).toBeLessThan(within);
    });
  });

  /** Plates as they might show the same jump: gain of all, gain of each, an offset of each loading, noise. */
  function disturb(plates: readonly Float64Array[], random: ReturnType<typeof seededRandom>): Float64Array[] {
    const { gain, plateGain, repeatability } = checkedRig;
    const all = 1 + gain * random.gaussian();
    return plates.map((force) => {
      const own = all * (1 + plateGain * random.gaussian());
      let offset = 0;
      return force.map((value, i) => {
        // Loaded anew: another offset; in the air none.
        if (value > 0 && !((force[i - 1] ?? 0) > 0)) offset = repeatability * random.gaussian();
        return own * value + (value > 0 ? offset : 0) + noise * random.gaussian();
      });
    });
  }
});
