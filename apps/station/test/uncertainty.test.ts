import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { addressOf, reportRoutes, routes, type TrialUncertainty, type UncertaintyOfValue } from '@sthene/contract';
import { metricRegistry } from '@sthene/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { judge } from '../src/work/athlete/judge.ts';
import { betweenRigs } from '../src/work/athlete/rigs.ts';
import { type Circumstances, unlikeness } from '../src/work/athlete/unlike.ts';
import { fillSmallLab, withLab } from './filled-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const lab = { lab: 'lab' } as const;
let station: StationUnderTest;
let trials: string[] = [];
beforeAll(async () => {
  const folder = mkdtempSync(join(tmpdir(), 'sthene-uncertainty-'));
  trials = await withLab(folder, (opened) => fillSmallLab(opened, 2));
  station = await stationUnderTest(folder);
});
afterAll(() => station?.end());

const ofTrial = (at: number): Promise<TrialUncertainty> =>
  station.ask(routes.uncertainty, { params: { ...lab, id: trials[at] as string } });
const known = (one: TrialUncertainty['metrics'][string] | undefined): UncertaintyOfValue => {
  if (one === undefined || 'reason' in one) throw new Error(one?.reason ?? 'nothing');
  return one;
};

describe('how sure the values of a stored trial are', () => {
  it('every value of the result, part by part, with what nobody knows by its name', async () => {
    const found = await ofTrial(3);
    const { result } = await station.ask(routes.trial, { params: { ...lab, id: trials[3] as string } });
    const measured = Object.entries(result.metrics).flatMap(([id, one]) => ('value' in one ? [id] : []));
    expect(Object.keys(found.metrics).sort()).toEqual(measured.sort());
    expect(found.rigChecked).toBe(false);
    const peak = known(found.metrics.peak_force);
    const S = result.events?.baseline.ok ? result.events.baseline.value.sd : Number.NaN;
    expect(peak.parts.find(({ id }) => id === 'noise')?.standard).toBe(S);
    expect(peak).toMatchObject({ unit: 'N', coverage: 2, expanded: 2 * peak.standard });
    expect(peak.unknown.map(({ id }) => id)).toEqual([
      'gain',
      'plate-gain',
      'repeatability',
      'linearity',
      'synchronisation',
    ]);
    // W is the baseline of this recording: its spread is that of the standing before the pull.
    expect(found.weight).toMatchObject({ of: 'standing-before' });
    expect(known(found.metrics.peak_force_net).parts.map(({ id }) => id)).toContain('body-weight');
  });

  it('with the onset somebody placed, the timing beside the number', async () => {
    const found = known((await ofTrial(0)).metrics.rfd_0_100);
    expect(found.onsetTiming?.standard).toBeGreaterThan(0);
    const noise = found.parts.find(({ id }) => id === 'noise')?.standard ?? 0;
    expect(found.standard).toBeLessThan(Math.hypot(noise, 1));
  });

  it('no trial, no uncertainty', async () => {
    await expect(station.ask(routes.uncertainty, { params: { ...lab, id: 'none' } })).rejects.toMatchObject({
      problem: { status: 404 },
    });
  });

  it('pages that are handed out say it of their headline in one line, in both languages', async () => {
    const { session, person } = await station.ask(routes.trial, { params: { ...lab, id: trials[3] as string } });
    const page = async (kind: 'session' | 'athlete', query: Record<string, string>) => {
      const path = addressOf(reportRoutes.report, { ...lab, kind }, { ...query, as: 'html' } as never);
      return (await fetch(station.address.replace(/\/$/, '') + path)).text();
    };
    const size = /±\s?[\d.,]+\sN \(k = 2\)/u;
    for (const said of [
      await page('session', { session: session.id }),
      await page('athlete', { person: person.code }),
    ]) {
      expect(said).toMatch(size);
      expect(said).toContain('Not known and not in it: gain of the plates');
    }
    expect(await page('session', { session: session.id, language: 'de' })).toMatch(/Unsicherheit ±/u);
  });
});

describe('two sessions on different rigs', () => {
  const rig = { gain: 0.002, repeatability: 1, linearity: 1, largestForce: 1900, growth: 0 };
  const peak = metricRegistry.get('peak_force');
  if (peak === undefined) throw new Error('no peak force');
  const on = (id: string | undefined, check?: string, gain = 0.002): Circumstances =>
    ({
      session: {
        protocol: { id: 'imtp', version: 1 },
        gravity: 9.81,
        setup: {},
        ...(id === undefined ? {} : { rig: id }),
      },
      methods: [],
      ...(check === undefined ? {} : { check: { id: check, rig: { ...rig, gain } } }),
    }) as unknown as Circumstances;

  it('are not alike, unless nobody knows the rig', () => {
    expect(unlikeness(on('a'), on('b'))).toEqual(['Rig']);
    expect(unlikeness(on('a'), on('a'))).toEqual([]);
    expect(unlikeness(on('a'), on(undefined))).toEqual([]);
  });

  it('have the gain of both between them; on one rig under one check nothing', () => {
    // By hand: 0.3 % and 0.4 % give 0.5 %.
    const found = betweenRigs(peak, on('a', '1', 0.003), [on('b', '2', 0.004)], 'log', 3000);
    expect(found?.standard).toBeCloseTo(0.5, 9);
    expect(betweenRigs(peak, on('a', '1', 0.003), [on('a', '2', 0.004)], 'log', 3000)?.standard).toBeCloseTo(0.5, 9);
    expect(betweenRigs(peak, on('a', '1'), [on('a', '1')], 'log', 3000)).toBeUndefined();
    expect(betweenRigs(peak, on('a'), [on('a')], 'log', 3000)).toBeUndefined();
  });

  it('are judged with it: a wider interval, the term in newtons, and the rig named first', () => {
    const session = (n: number, value: number) => ({
      ...{ person: 'p', session: `s${n}`, at: `2026-0${n}-10T09:00:00.000Z`, value, unit: 'N', n: 3, maximal: 3 },
      ...{ sd: 20, methods: [], results: [], familiarisation: n === 1 },
    });
    const own = [session(1, 2900), session(2, 3000), session(3, 3120)];
    const error = { value: 2, df: 30 };
    const noise = {
      ...{ scale: 'log' as const, error, spread: 8, people: 9, sessions: 40, trends: 'common' as const },
      ...{ interval: { value: 2, low: 1.6, high: 2.6, level: 0.95 }, worthwhile: { ok: true as const, value: 1.2 } },
    };
    const history = {
      ...{ test: 'imtp', metric: 'peak_force', everyone: own, unit: 'N', better: 'higher' as const },
      ...{ scale: 'log' as const, noise: { ok: true as const, value: noise } },
    };
    const against = (now: Circumstances, then: Circumstances) =>
      judge(history, own, [undefined, then, now], { seasonStart: '09-01', dueWeeks: 8, primary: {} }, ['last'])
        .changes[0];
    const same = against(on('a', '1'), on('a', '1'));
    const apart = against(on('b', '2', 0.03), on('a', '1', 0.04));
    const width = (change: typeof same) => (change?.intervals[2]?.high ?? 0) - (change?.intervals[2]?.low ?? 0);
    expect(same).toMatchObject({ unlike: [] });
    expect(same).not.toHaveProperty('rigs');
    expect(apart?.unlike).toEqual(['Rig']);
    // By hand: 3 % and 4 % give 5 (of 100 ln x), in newtons 3000 (exp(0.05) - 1).
    expect(apart?.rigs?.standard).toBeCloseTo(3000 * Math.expm1(0.05), 6);
    expect(width(apart)).toBeGreaterThan(1.5 * width(same));
    expect(apart?.detectable).toBe(same?.detectable);
    expect(against(on('b'), on('a'))).toMatchObject({ unlike: ['Rig'], rigs: {} });
  });

  describe('of ratios of two tests', () => {
    const force = { id: 'dynamic_strength_index', unit: '1' };
    const height = { id: 'eccentric_utilisation_ratio', unit: '1' };
    const ratio = (own: Circumstances, other: Circumstances): Circumstances => ({ ...own, others: [other] });
    const a1 = on('a', '1', 0.003);
    const a2 = on('a', '2', 0.004);
    const b3 = on('b', '3', 0.012);

    it('tell what the rigs of either test leave', () => {
      // By hand: under one check the gain cancels in the ratio, under two 0.3 % and 1.2 % of it are left.
      expect(betweenRigs(force, ratio(a1, a1), [ratio(a2, a2)], 'unit', 0.8)?.standard).toBeCloseTo(0, 12);
      expect(betweenRigs(force, ratio(a1, b3), [ratio(a1, a1)], 'unit', 0.8)?.standard).toBeCloseTo(
        0.8 * Math.hypot(0.003, 0.012),
        12,
      );
      // The other test alone was on another rig: its gain, and that of the rig it was on before.
      expect(betweenRigs(force, ratio(a1, b3), [ratio(a1, a2)], 'unit', 0.8)?.standard).toBeCloseTo(
        0.8 * Math.hypot(0.012, 0.004),
        12,
      );
      // Against two of them, one under the same two checks: half of the difference.
      expect(betweenRigs(force, ratio(a1, b3), [ratio(a1, b3), ratio(a1, a2)], 'unit', 0.8)?.standard).toBeCloseTo(
        0.4 * Math.hypot(0.012, 0.004),
        12,
      );
      expect(betweenRigs(force, ratio(a1, b3), [ratio(a1, b3)], 'unit', 0.8)).toBeUndefined();
      expect(betweenRigs(height, ratio(a1, b3), [ratio(a1, a2)], 'unit', 1.1)?.standard).toBe(0);
      expect(betweenRigs(force, ratio(a1, on('b')), [ratio(a1, a2)], 'unit', 0.8)).toEqual({});
    });

    it('are not alike where either test was not', () => {
      expect(unlikeness(ratio(a1, a1), ratio(a1, b3))).toEqual(['Rig']);
      expect(unlikeness(ratio(a1, b3), ratio(a1, b3))).toEqual([]);
      const squat = (arms: string): Circumstances => ({
        ...a1,
        session: { ...a1.session, protocol: { id: 'squat-jump', version: 1 }, setup: { arms } },
      });
      expect(unlikeness(ratio(a1, squat('arm swing')), ratio(a1, squat('hands on hips')))).toEqual(['Arms']);
    });
  });

  it('have a term that is not known where a check is missing', () => {
    expect(betweenRigs(peak, on('a', '1'), [on('b')], 'log', 3000)).toEqual({});
    expect(betweenRigs(peak, on('a'), [on('b')], 'log', 3000)).toEqual({});
  });
});
