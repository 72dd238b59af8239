import { describe, expect, it } from 'vitest';
import type { UtcInstant } from '../recording/index.ts';
import { seededRandom } from '../simulation/index.ts';
import {
  balanceFigures,
  cellFigures,
  chained,
  checkDue,
  checkPlan,
  correctedForce,
  correctedScale,
  defaultLimits,
  forceUncertainty,
  gainTrend,
  gravityOfPlace,
  growthBeyond,
  judgeCheck,
  type LoadReading,
  limitsWith,
  massUncertainty,
  type ReferenceMass,
  type RigCheckDocument,
  referenceForce,
  restFigures,
  type Spot,
  spots,
  steadyReading,
  tapFigures,
} from './index.ts';

const site = gravityOfPlace(52.3, 80);
const steel = (id: number, within = 0.001): ReferenceMass => ({
  ...{ id: String(id), name: '20 kg', mass: 20, known: 'tolerance', within },
});

interface Plate {
  readonly gain: number;
  readonly offset?: number;
  /** Newtons a plate keeps from coming down. */
  readonly sticks?: number;
}

/** What a plate of known faults shows: series of 20, 40, ... 100 kg up and down at the centre, from the definition alone. */
function seriesOf(
  plate: string,
  { gain, offset = 0, sticks = 0 }: Plate,
  options: { series?: number; within?: number } = {},
) {
  const { series = 3, within } = options;
  const out: LoadReading[] = [];
  for (let s = 1; s <= series; s++)
    for (const direction of ['up', 'down'] as const)
      for (let k = 0; k <= 5; k++) {
        const { force, uncertainty } = referenceForce(
          Array.from({ length: k }, (_, i) => steel(i, within)),
          site,
        );
        const stuck = direction === 'down' && k < 5 ? sticks : 0;
        out.push({
          ...{ plate, series: s, direction, spot: 'centre', load: force, loadUncertainty: uncertainty },
          ...{ reading: offset + gain * force + stuck, sd: 0.4, origin: 'samples' },
        });
      }
  return out;
}

const documentOf = (readings: readonly LoadReading[], more: Partial<RigCheckDocument> = {}): RigCheckDocument => ({
  ...{ schema: 'sthene.rig-check/1', plates: ['left', 'right'], gravity: site, airDensity: 1.2, masses: [] },
  ...{ limits: defaultLimits, corrected: [], readings, rest: [], taps: [], balance: [], cell: [], ...more },
});

const standing = (document: RigCheckDocument, id: string, plate: string) =>
  judgeCheck(document).quantities.find((one) => one.id === id && one.plate === plate);

describe('a known force', () => {
  it('adds pieces with buoyancy, and their uncertainties as if they erred together', () => {
    const { force, uncertainty } = referenceForce([steel(0), steel(1)], { ...site, uncertainty: 0 });
    expect(force).toBeCloseTo(40 * site.value * (1 - 1.2 / 8000), 9);
    expect(uncertainty).toBeCloseTo((2 * 0.001 * site.value) / Math.sqrt(3), 9);
    expect(referenceForce([], site)).toEqual({ force: 0, uncertainty: 0 });
  });

  it('halves what a certificate says, and trusts a print to 5 %', () => {
    expect(massUncertainty({ ...steel(0, 0.004), known: 'certificate' })).toBe(0.002);
    expect(massUncertainty({ ...steel(0, 0), known: 'printed' })).toBeCloseTo(1 / Math.sqrt(3), 12);
  });
});

describe('a check of two plates', () => {
  it('finds the gain error of one and the sticking of the other, and nothing else', () => {
    const document = documentOf([...seriesOf('left', { gain: 1.012 }), ...seriesOf('right', { gain: 1, sticks: 4 })]);
    const result = judgeCheck(document);
    expect(result.verdict).toBe('fails');
    const failed = result.quantities.filter((one) => one.standing === 'fail').map(({ id, plate }) => `${plate} ${id}`);
    expect(failed).toEqual([
      'left gain',
      'left relative-error',
      'left small-load-error',
      'right hysteresis',
      'right zero-return',
    ]);
    expect(standing(document, 'gain', 'left')?.value).toBeCloseTo(1.2, 9);
    expect(standing(document, 'hysteresis', 'right')?.value).toBeCloseTo((100 * 4) / result.checkedTo, 9);
    expect(result.correction.find(({ plate }) => plate === 'left')?.gain).toBeCloseTo(1.012, 12);
  });

  it('does not judge the gain by masses that nobody knows, unless the error is beyond them too', () => {
    const rough = (gain: number) =>
      documentOf([...seriesOf('left', { gain }, { within: 1 }), ...seriesOf('right', { gain: 1 }, { within: 1 })]);
    expect(standing(rough(1.012), 'gain', 'left')?.standing).toBe('not-judged');
    expect(judgeCheck(rough(1.012)).verdict).toBe('incomplete');
    expect(judgeCheck(rough(1.012)).shortfalls.map(({ code }) => code)).toContain('masses-unknown');
    expect(standing(rough(1.12), 'gain', 'left')?.standing).toBe('fail');
    expect(judgeCheck(rough(1.12)).verdict).toBe('fails');
  });

  it('says what is missing', () => {
    const codes = (readings: readonly LoadReading[]) =>
      judgeCheck(documentOf(readings)).shortfalls.map(({ code }) => code);
    expect(codes([])).toEqual(['no-loads', 'no-loads']);
    const upOnly = seriesOf('left', { gain: 1 }, { series: 1 }).filter(({ direction }) => direction === 'up');
    expect(codes([...upOnly, ...seriesOf('right', { gain: 1 })])).toEqual(['no-way-down', 'one-series']);
    const typed = seriesOf('left', { gain: 1 }).map((one) => ({ ...one, origin: 'typed' as const }));
    expect(codes([...typed, ...seriesOf('right', { gain: 1 })])).toEqual(['typed']);
    expect(judgeCheck(documentOf([])).verdict).toBe('incomplete');
  });

  it('judges by the limits of the lab, and tells whose they are', () => {
    const readings = [...seriesOf('left', { gain: 1.004 }), ...seriesOf('right', { gain: 1 })];
    expect(judgeCheck(documentOf(readings)).verdict).toBe('passes');
    const strict = documentOf(readings, { limits: limitsWith({ gain: 0.3 }) });
    expect(standing(strict, 'gain', 'left')).toMatchObject({
      standing: 'fail',
      limit: { source: "The lab's own limit." },
    });
  });

  it('five places of one plate: spread over the mean', () => {
    const at = (spot: Spot, reading: number): LoadReading => ({
      ...{
        plate: 'left',
        series: 4,
        direction: 'up',
        spot,
        load: 392.4,
        loadUncertainty: 0.01,
        reading,
        origin: 'samples',
      },
    });
    const places = spots.map((spot, i) => at(spot, 392 + i));
    const found = judgeCheck(documentOf([...seriesOf('left', { gain: 1 }), ...places])).spots;
    // The centre is read at this load in no series, so the five values stand alone: 4 N over 394 N.
    expect(found.map(({ spread }) => spread)).toEqual([expect.closeTo((100 * 4) / 394, 9)]);
  });
});

describe('uncertainty of a rig', () => {
  const { uncertainty, checkedTo } = judgeCheck(
    documentOf([...seriesOf('left', { gain: 1.003 }), ...seriesOf('right', { gain: 1, sticks: 0.5 })]),
  );
  if (uncertainty === undefined) throw new Error('no uncertainty');
  const { rig, plates } = uncertainty;

  it('has the gain of masses, gravity, slope and what stays uncorrected', () => {
    expect(rig.parts.gravity).toBeCloseTo(5e-5 / Math.sqrt(3), 12);
    // Five pieces of 20 kg within 1 g each, fully correlated rectangles: 1 g in 20 kg over sqrt 3.
    expect(rig.parts.masses).toBeCloseTo(5e-5 / Math.sqrt(3), 7);
    expect(rig.parts.uncorrected).toBeCloseTo(0.003 / Math.sqrt(3), 12);
    expect(rig.gain).toBeCloseTo(Math.hypot(...Object.values(rig.parts)), 15);
  });

  it('adds newtons of both plates and what they carry', () => {
    const [left, right] = plates;
    expect(left?.linearity).toBeCloseTo(0, 9);
    expect(right?.linearity).toBeGreaterThan(0.5 / Math.sqrt(3) - 0.3);
    expect(right?.repeatability).toBeCloseTo(0.5 / Math.sqrt(3), 9);
    expect(rig.largestForce).toBeCloseTo(2 * checkedTo, 9);
  });

  it('grows beyond the largest load as the worst parabola would, and never shrinks', () => {
    expect(growthBeyond(500, 1000)).toBe(1);
    expect(growthBeyond(1000, 1000)).toBe(1);
    // Chebyshev's T2 at 2 x - 1 = 3: 2 * 9 - 1.
    expect(growthBeyond(2000, 1000)).toBe(17);
    expect(growthBeyond(-2000, 1000)).toBe(17);
    let last = 0;
    for (let force = 0; force < 8000; force += 50) {
      const { combined } = forceUncertainty(rig, force);
      expect(combined).toBeGreaterThanOrEqual(last);
      last = combined;
    }
  });

  it('holds: among parabolas within the bound none goes further', () => {
    const random = seededRandom(7, 1);
    for (let i = 0; i < 200; i++) {
      const [a, b, c] = [random.gaussian(), random.gaussian(), random.gaussian()];
      const bend = (x: number) => a + b * x + c * x * x;
      let bound = 0;
      for (let x = 0; x <= 1; x += 1e-3) bound = Math.max(bound, Math.abs(bend(x)));
      for (const x of [1.1, 1.5, 2, 4])
        expect(Math.abs(bend(x))).toBeLessThanOrEqual(bound * growthBeyond(x, 1) * (1 + 1e-2));
    }
  });
});

describe('correction', () => {
  it('puts a force right, and a channel without touching its raw values', () => {
    const correction = { plate: 'left', gain: 1.012, offset: 0.8 };
    expect(correctedForce(0.8 + 1.012 * 700, correction)).toBeCloseTo(700, 9);
    const channel = { scale: 0.1, offset: 32 };
    const put = correctedScale(channel, correction);
    for (const raw of [32, 500, 9000]) {
      const shown = (raw - channel.offset) * channel.scale;
      expect((raw - put.offset) * put.scale).toBeCloseTo(correctedForce(shown, correction), 9);
    }
  });

  it('one after another is one', () => {
    const [first, second] = [
      { plate: 'left', gain: 1.012, offset: 0.8 },
      { plate: 'left', gain: 0.999, offset: -0.2 },
    ];
    const both = chained(first, second);
    expect(correctedForce(900, both)).toBeCloseTo(correctedForce(correctedForce(900, first), second), 9);
  });
});

describe('plates at rest, tapped, compared', () => {
  const random = seededRandom(3, 1);
  const rate = 1000;
  const rest = Float64Array.from(
    { length: 5 * rate },
    (_, i) => 1.5 + 0.5 * random.gaussian() + 1.2 * Math.sin((2 * Math.PI * 50 * i) / rate) + (0.6 * i) / (5 * rate),
  );

  it('mean, noise, hum and drift', () => {
    const found = restFigures(rest, rate);
    if (!found.ok) throw new Error(found.reason);
    const { mains, drift, noise } = found.value;
    expect(mains[0]?.amplitude).toBeCloseTo(1.2, 1);
    expect(mains[1]?.amplitude).toBeLessThan(0.1);
    expect(drift).toBeCloseTo(7.2, 0);
    expect(noise).toBeCloseTo(Math.hypot(0.5, 1.2 / Math.SQRT2, 0.6 / Math.sqrt(12)), 1);
    expect(restFigures(rest.subarray(0, 500), rate)).toEqual({ ok: false, reason: 'recording-too-short' });
  });

  it('the frequency a tap rings at, to 1 Hz; none in noise alone', () => {
    for (const frequency of [62.4, 137.3, 305.1]) {
      const tapped = Float64Array.from({ length: rate }, (_, i) => {
        const t = (i - 200) / rate;
        const ring = t < 0 ? 0 : 180 * Math.exp(-25 * t) * Math.cos(2 * Math.PI * frequency * t);
        return ring + 0.5 * random.gaussian();
      });
      const found = tapFigures(tapped, rate);
      expect(found.ok && Math.abs(found.value.frequency - frequency)).toBeLessThan(1);
    }
    const noise = Float64Array.from({ length: rate }, () => random.gaussian());
    expect(tapFigures(noise, rate)).toEqual({ ok: false, reason: 'no-fit' });
    expect(tapFigures(new Float64Array(50), rate)).toEqual({ ok: false, reason: 'recording-too-short' });
  });

  it('one person on both plates', () => {
    const found = balanceFigures([
      { plate: 'left', weight: 800 },
      { plate: 'right', weight: 806 },
    ]);
    expect(found.ok && found.value.difference).toBeCloseTo((100 * 6) / 803, 9);
    expect(balanceFigures([{ plate: 'left', weight: 800 }])).toEqual({ ok: false, reason: 'too-few-values' });
  });

  it('a pull against a reference cell', () => {
    const cells = [0, 500, 1000, 2000];
    const found = cellFigures(cells.map((cell) => ({ cell, plates: 2 + 1.004 * cell })));
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.line.slope).toBeCloseTo(1.004, 9);
    expect(found.value.pairs[2]?.relativeError).toBeCloseTo(0.6, 9);
    expect(found.value.pairs[0]?.relativeError).toBeUndefined();
  });
});

describe('over the years', () => {
  const at = (text: string) => `${text}T10:00:00.000Z` as UtcInstant;

  it('when the next check is due', () => {
    expect(checkDue(undefined, 365, at('2026-05-01'))).toEqual({ standing: 'never' });
    const standing = (now: string) => checkDue(at('2025-05-01'), 365, at(now)).standing;
    expect([standing('2025-06-01'), standing('2026-04-15'), standing('2026-05-03')]).toEqual([
      'good',
      'soon',
      'overdue',
    ]);
    expect(checkDue(at('2025-05-01'), 365, at('2026-05-03'))).toMatchObject({ at: at('2026-05-01'), days: -2 });
  });

  it('how the gain wanders', () => {
    const checks = [
      { at: at('2023-05-01'), gain: 0.1 },
      { at: at('2024-04-30'), gain: 0.2 },
      { at: at('2025-04-30'), gain: 0.3 },
    ];
    const found = gainTrend(checks, at('2026-04-30'));
    if (!found.ok) throw new Error(found.reason);
    expect(found.value.perYear).toBeCloseTo(0.1, 3);
    expect(found.value.now).toBeCloseTo(0.4, 3);
    expect(gainTrend(checks.slice(1), at('2026-04-30'))).toEqual({ ok: false, reason: 'too-few-values' });
  });
});

describe('guided steps', () => {
  it('go up and down each series, plate by plate, then around the places', () => {
    const masses = [steel(0), steel(1)];
    const steps = checkPlan({ plates: ['left', 'right'], masses, series: 2, spots: true });
    expect(steps).toHaveLength(2 * (2 * 5 + 5));
    expect(steps.slice(0, 6).map(({ direction, masses: on }) => `${direction} ${on.length}`)).toEqual([
      'up 0',
      'up 1',
      'up 2',
      'down 1',
      'down 0',
      'up 0',
    ]);
    expect(steps.filter(({ plate, series }) => plate === 'left' && series === 3).map(({ spot }) => spot)).toEqual(
      spots,
    );
    expect(checkPlan({ plates: ['left'], masses, series: 1, spots: false })).toHaveLength(5);
  });

  it('read as far back as the plate rests, over whole periods of the mains', () => {
    const rate = 1000;
    const hum = (i: number) => 3 * Math.sin((2 * Math.PI * 50 * i) / rate);
    // Two seconds at 196 N, then a mass is put on; 1.5 s at 392 N.
    const samples = Float64Array.from({ length: 3500 }, (_, i) => (i < 2000 ? 196 : 392) + hum(i));
    const found = steadyReading(samples, rate, 3);
    expect(found?.mean).toBeCloseTo(392, 9);
    expect(found?.steadyFor).toBeCloseTo(1.4, 9);
    expect(steadyReading(samples.fill(5), rate, 3)?.steadyFor).toBeCloseTo(3, 9);
    samples[3499] = Number.NaN;
    expect(steadyReading(samples, rate, 3)).toBeUndefined();
    expect(steadyReading(new Float64Array(100), rate, 3)).toBeUndefined();
  });
});
