import { ApiProblem, followRoutes, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleData } from '../../../tests/example-lab.ts';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

const inExample = { lab: 'example' } as const;
const by = 'Noor Vale';
const refusal = (asking: Promise<unknown>) =>
  asking.then(
    () => undefined,
    (error: unknown) => (error instanceof ApiProblem ? [error.problem.status, error.problem.code] : error),
  );

describe('following the example', () => {
  let station: StationUnderTest;
  const ids = new Map<string, string>();
  beforeAll(async () => {
    station = await stationUnderTest(await exampleData());
    for (const one of await station.ask(routes.people, { params: inExample })) ids.set(one.givenName, one.id);
  });
  afterAll(() => station?.end());
  const of = (name: string) => ({ ...inExample, id: ids.get(name) as string });

  it('tells a coach at most five things, the newest test day of the example being today', async () => {
    const today = await station.ask(followRoutes.today, { params: inExample, query: {} });
    expect([today.on, today.chosen, today.dueWeeks]).toEqual(['2026-03-28', 'newest', 12]);
    expect(today.rows.length).toBeLessThanOrEqual(5);
    const table = await station.ask(routes.squadTable, { params: inExample, query: {} });
    const sure = table.rows.filter(({ change }) => /^(stronger|weaker)$/.test(change?.word ?? ''));
    const told = today.rows.flatMap((row) => (row.kind === 'changed' ? [row.person.name] : []));
    expect(told.sort()).toEqual(sure.map(({ person }) => person.name).sort());
    expect(today.byChance).toBeCloseTo(table.byChance, 10);
    // A year later nobody has come, and that is one row however many they are.
    const later = await station.ask(followRoutes.today, { params: inExample, query: { on: '2027-03-28' } });
    expect(later.rows).toEqual([expect.objectContaining({ kind: 'due' })]);
    expect(later.rows[0]?.kind === 'due' && later.rows[0].people.length).toBe(12);
    expect([later.chosen, later.judged, later.byChance]).toEqual(['asked', 0, 0]);
    // The day before the first test day everybody is due, and nobody has a last one.
    const before = await station.ask(followRoutes.today, { params: inExample, query: { on: '2023-10-13' } });
    expect(before.rows[0]?.kind === 'due' && before.rows[0].people.every(({ last }) => last === undefined)).toBe(true);
  });

  it('judges by the season and the value that the lab chose', async () => {
    const rules = await station.ask(followRoutes.followRules, { params: inExample });
    const changed = { ...rules, seasonStart: '10-01', primary: { '': 'rfd_0_200' } };
    await station.ask(followRoutes.changeFollowRules, { params: inExample, body: { ...changed, by } });
    expect((await station.ask(followRoutes.today, { params: inExample, query: {} })).metric.id).toBe('rfd_0_200');
    const view = await station.ask(routes.athlete, { params: of('Emeka'), query: {} });
    const season = view.changes.find(({ reference }) => reference === 'season-start');
    const first = view.sessions.find(({ at }) => at >= '2025-10-01');
    expect(season?.sessions).toEqual([first?.id]);
    const wrong = { ...changed, primary: { '': 'shoe_size' }, by };
    expect(await refusal(station.ask(followRoutes.changeFollowRules, { params: inExample, body: wrong }))).toEqual([
      404,
      'not-found',
    ]);
    const leap = { ...changed, seasonStart: '02-30', by };
    expect(await refusal(station.ask(followRoutes.changeFollowRules, { params: inExample, body: leap }))).toEqual([
      400,
      'request-invalid',
    ]);
    await station.ask(followRoutes.changeFollowRules, { params: inExample, body: { ...rules, by } });
  });

  it('says before the day what the test can confirm, and what more trials and sessions do', async () => {
    const view = await station.ask(followRoutes.before, { params: inExample, query: {} });
    expect(view.rigCheck).toBeUndefined();
    const noise = view.noise as NonNullable<typeof view.noise>;
    const at = (trials: number, sessions: number) =>
      view.plans.find((one) => one.trials === trials && one.sessions === sessions) as (typeof view.plans)[number];
    for (const one of view.plans)
      expect(one.error).toBeCloseTo(Math.sqrt(noise.between ** 2 + noise.within.value ** 2 / one.trials), 10);
    expect(at(4, 1).confirmable).toBeLessThan(at(2, 1).confirmable);
    const beyond = (plan: { confirmable: number }) => plan.confirmable - (noise.worthwhile as number);
    expect(beyond(at(2, 2))).toBeCloseTo(beyond(at(2, 1)) / Math.SQRT2, 8);
    // Trials scatter by about 2 % of net force in the simulation, gross force less; sessions had two to three of them.
    expect(noise.within.value).toBeGreaterThan(0.5);
    expect(noise.within.value).toBeLessThan(4);
    expect(noise.trials).toBeGreaterThan(1);
    expect(noise.trials).toBeLessThan(4);
  });

  it('shows own norms by sex and age with n, and no percentile of a few', async () => {
    const { groups, metric } = await station.ask(followRoutes.norms, { params: inExample, query: {} });
    const table = await station.ask(routes.squadTable, { params: inExample, query: {} });
    expect(groups.reduce((sum, { n }) => sum + n, 0)).toBe(12);
    expect(groups.every(({ percentiles }) => percentiles === undefined)).toBe(true);
    const women = table.rows.filter(({ sex }) => sex === 'female').flatMap(({ value }) => value?.value ?? []);
    const mean = women.reduce((sum, value) => sum + value, 0) / women.length;
    const weighted = groups.filter(({ sex }) => sex === 'female');
    expect(weighted.reduce((sum, { n, mean: m }) => sum + n * m, 0) / women.length).toBeCloseTo(mean, 8);
    expect(metric.unit).toBe('N');
  });

  it('shows published values of other people with their sources, and the place of one value among them', async () => {
    const view = await station.ask(followRoutes.publishedNorms, { params: inExample, query: { test: 'imtp' } });
    expect([view.metric.id, view.metric.unit, view.groups.length, view.ranges.length]).toEqual([
      'peak_force',
      'N',
      6,
      3,
    ]);
    expect(view.groups[1]).toMatchObject({ id: 'imtp-rugby-union-u18', mean: 2561.3, sd: 339.4, weight: 'not-said' });
    expect(view.groups[1]?.source.where).toContain('29(8)');
    expect(view.people).toHaveLength(12);
    // The lab's own norms are the same with and without them.
    const own = await station.ask(followRoutes.norms, { params: inExample, query: { test: 'imtp' } });
    expect(own.groups.reduce((sum, { n }) => sum + n, 0)).toBe(12);
    const params = { ...inExample, id: 'imtp-rugby-union-u18' };
    // NM-01 of jumps-and-plates.md 9.6.
    const place = await station.ask(followRoutes.publishedPlace, { params, query: { value: 2900 } });
    expect(place.z.value).toBeCloseTo(0.997938, 4);
    expect(place.percentile.value).toBeCloseTo(84.0845, 3);
    expect(place.t.value).toBeCloseTo(59.9794, 3);
    // 67 people in three groups: how many in this one is not known, so nothing says how sure the place is.
    expect([place.error, place.z.low, place.percentile.high]).toEqual([undefined, undefined, undefined]);
    const inKilo = await station.ask(followRoutes.publishedPlace, { params, query: { value: 2.9, unit: 'kN' } });
    expect(inKilo.z.value).toBeCloseTo(place.z.value, 10);
    const small = { ...inExample, id: 'imtp-soccer-women-straps' };
    const sure = await station.ask(followRoutes.publishedPlace, { params: small, query: { value: 1400 } });
    expect(sure.error).toBeCloseTo(Math.sqrt(1 / 11 + 1.001018 ** 2 / 22), 5);
    expect((sure.z.low as number) < sure.z.value && sure.z.value < (sure.z.high as number)).toBe(true);
  });

  it('has no published place where nothing was published, and none for what is no value', async () => {
    const none = await station.ask(followRoutes.publishedNorms, {
      params: inExample,
      query: { test: 'imtp', metric: 'rfd_0_200' },
    });
    expect([none.groups, none.ranges]).toEqual([[], []]);
    const alone = await station.ask(followRoutes.publishedNorms, { params: inExample, query: { test: 'imtp-left' } });
    expect([alone.groups, alone.ranges]).toEqual([[], []]);
    const place = (id: string, query: { value: number; unit?: string }) =>
      refusal(station.ask(followRoutes.publishedPlace, { params: { ...inExample, id }, query }));
    expect(await place('imtp-cricket', { value: 1 })).toEqual([404, 'not-found']);
    expect(await place('imtp-rugby-youth-range', { value: 1 })).toEqual([404, 'not-found']);
    expect(await place('imtp-rugby-union-u18', { value: -3 })).toEqual([400, 'request-invalid']);
    expect(await place('imtp-rugby-union-u18', { value: 3, unit: 'N/kg' })).toEqual([400, 'request-invalid']);
  });

  it('finds which side an athlete leans to, and is silent within the noise', async () => {
    const hurt = await station.ask(followRoutes.asymmetry, { params: of('Ingrid'), query: {} });
    // Her right leg has carried more since the left knee was hurt; positive is right.
    expect(hurt.leaning?.side).toBe('right');
    expect(hurt.sessions.at(-1)?.value).toBeGreaterThan(0);
    expect(hurt.detectable).toBeCloseTo(1.96 * Math.SQRT2 * (hurt.error?.value as number), 10);
    const even = await station.ask(followRoutes.asymmetry, { params: of('Tobias'), query: {} });
    expect(even.leaning).toBeUndefined();
    expect(even.direction?.pairs).toBe(hurt.direction?.pairs);
  });

  it('compares the two sides of a day where each is tested alone', async () => {
    const ask = (test: string) => station.ask(followRoutes.asymmetry, { params: of('Ingrid'), query: { test } });
    const [view, fromTheOther] = await Promise.all([ask('imtp-left'), ask('imtp-right')]);
    expect(view.pair).toEqual({ left: 'imtp-left', right: 'imtp-right' });
    expect(fromTheOther.sessions).toEqual(view.sessions);
    expect(view.sessions.length).toBeGreaterThan(1);
    const sessionValue = async (test: string, at: string) => {
      const query = { test, metric: 'peak_force' };
      const athlete = await station.ask(routes.athlete, { params: of('Ingrid'), query });
      return athlete.sessions?.find((one) => one.at.slice(0, 10) === at.slice(0, 10))?.value as number;
    };
    for (const { at, value } of view.sessions) {
      const [left, right] = await Promise.all([sessionValue('imtp-left', at), sessionValue('imtp-right', at)]);
      expect(value).toBeCloseTo((100 * (right - left)) / (right + left), 10);
    }
  });

  it('holds a hurt limb against its own value before, with the other limb beside it', async () => {
    const view = await station.ask(followRoutes.returnAfterInjury, { params: of('Ingrid'), query: {} });
    expect([view.limb, view.injuries.length]).toEqual(['left', 1]);
    const [alone, side] = view.series;
    expect(alone).toMatchObject({ kind: 'single-leg', test: 'imtp-left' });
    expect(side).toMatchObject({ kind: 'side', metric: { id: 'left_peak_force' } });
    for (const one of [alone, side]) {
      const first = one?.sessions[0];
      const { value = 0, low = 0, high = 0 } = first?.recovered ?? {};
      expect(value).toBeCloseTo((100 * (first?.value as number)) / (one?.before?.value as number), 8);
      expect(low).toBeLessThan(value);
      expect(high).toBeGreaterThan(value);
      expect(value).toBeLessThan(97);
      expect(first?.other?.value).toBeGreaterThan(value);
      expect(first?.symmetry).toBeLessThan(100);
      expect((one?.before?.last ?? '9') < '2025-03-03').toBe(true);
    }
    const none = await station.ask(followRoutes.returnAfterInjury, { params: of('Tobias'), query: {} });
    expect([none.injuries, none.series]).toEqual([[], []]);
  });

  it('keeps notes, corrects them, takes them back, and shows targets with their value', async () => {
    const params = of('Tobias');
    const [position, target] = await station.ask(followRoutes.athleteNotes, { params });
    expect([position?.kind, target?.kind]).toEqual(['position', 'target']);
    const view = await station.ask(routes.athlete, { params, query: {} });
    expect(view.targets).toEqual([{ value: 3900, until: '2026-09-01', text: target?.text }]);
    const other = await station.ask(routes.athlete, { params, query: { metric: 'rfd_0_200' } });
    expect(other.targets).toEqual([]);
    const remark = await station.ask(followRoutes.addAthleteNote, {
      params,
      body: { kind: 'remark', from: '2026-03-28', text: 'Came from a long row.', by },
    });
    const corrected = await station.ask(followRoutes.changeAthleteNote, {
      params: { ...inExample, id: remark.id },
      body: { from: '2026-03-29', text: 'Came from a short row.', revision: 1, by },
    });
    expect(corrected).toMatchObject({ kind: 'remark', from: '2026-03-29', revision: 2 });
    const stale = { from: '2026-03-28', text: 'x', revision: 1, by };
    expect(
      await refusal(
        station.ask(followRoutes.changeAthleteNote, { params: { ...inExample, id: remark.id }, body: stale }),
      ),
    ).toEqual([409, 'changed-meanwhile']);
    await station.ask(followRoutes.takeBackAthleteNote, {
      params: { ...inExample, id: remark.id },
      body: { reason: 'another athlete', by },
    });
    expect(await station.ask(followRoutes.athleteNotes, { params })).toHaveLength(2);
    const limbless = { kind: 'injury', from: '2026-03-28', text: 'knee', by } as const;
    expect(await refusal(station.ask(followRoutes.addAthleteNote, { params, body: limbless }))).toEqual([
      400,
      'bad-value',
    ]);
  });

  it('holds everybody against the reference that is asked for', async () => {
    const table = await station.ask(routes.squadTable, { params: inExample, query: { against: 'season-start' } });
    expect(table.against).toBe('season-start');
    for (const row of table.rows.slice(0, 4)) {
      const view = await station.ask(routes.athlete, { params: { ...inExample, id: row.person.id }, query: {} });
      expect(row.change).toEqual(view.changes.find(({ reference }) => reference === 'season-start'));
    }
    expect(table.rows[0]?.due).toBe('2026-06-20');
  });

  it('compares onset rules on the same efforts', async () => {
    const query = { metric: 'rfd_0_200', sessions: 3 };
    const found = await station.ask(followRoutes.reliabilityByRule, { params: inExample, query });
    expect(found.rows.length).toBeGreaterThan(8);
    const errors = found.rows.map(({ error }) => error?.value ?? Number.POSITIVE_INFINITY);
    expect(errors).toEqual(errors.toSorted((a, b) => a - b));
    // Under the rule of the method it is the study of the page itself.
    const study = await station.ask(routes.reliability, { params: inExample, query });
    const own = found.rows.find(({ current }) => current);
    expect(own?.rule).toBe('local-line');
    expect(own?.error?.value).toBeCloseTo(study.study?.error.value as number, 8);
    expect(own?.people).toBe(study.study?.complete);
    const peak = await station.ask(followRoutes.reliabilityByRule, { params: inExample, query: { sessions: 3 } });
    expect([peak.reason, peak.rows]).toEqual(['not-of-onset', []]);
  });

  it('lays sessions over each other, each the mean of what counts', async () => {
    const view = await station.ask(routes.athlete, { params: of('Emeka'), query: {} });
    const [a, b] = view.sessions.slice(-2);
    const { time, curves, unit } = await station.ask(followRoutes.curves, {
      params: of('Emeka'),
      query: { sessions: `${a?.id},${b?.id}` },
    });
    expect([unit, curves.map(({ n }) => n)]).toEqual(['N', [a?.n, b?.n]]);
    for (const [i, curve] of curves.entries()) {
      const peak = Math.max(...curve.mean);
      // The peak of a mean lies a little under the mean of peaks.
      const { value = 0 } = [a, b][i] ?? {};
      expect(peak).toBeLessThan(value * 1.001);
      expect(peak).toBeGreaterThan(value * 0.93);
      const onset = time.findIndex((t) => t >= 0) - curve.start;
      expect(curve.mean[onset] as number).toBeLessThan(0.5 * peak);
    }
    const foreign = { params: of('Tobias'), query: { sessions: `${a?.id}` } };
    expect(await refusal(station.ask(followRoutes.curves, foreign))).toEqual([404, 'not-found']);
  });

  it('judges by an adopted study until it is given up, and refuses a study that has changed', async () => {
    const study = await station.ask(routes.reliability, { params: inExample, query: { sessions: 3 } });
    const shown = study.study?.error.value as number;
    const draft = { test: 'imtp', metric: 'peak_force', sessions: 3, reason: 'spring study', by };
    const stale = { ...draft, shown: shown * 1.01 };
    expect(await refusal(station.ask(followRoutes.adopt, { params: inExample, body: stale }))).toEqual([
      409,
      'study-changed',
    ]);
    const adopted = await station.ask(followRoutes.adopt, { params: inExample, body: { ...draft, shown } });
    expect(adopted.error.value).toBe(shown);
    const view = await station.ask(routes.athlete, { params: of('Emeka'), query: {} });
    expect(view.noise.squad).toMatchObject({ error: { value: shown }, adopted: { by } });
    const again = await station.ask(routes.reliability, { params: inExample, query: { sessions: 3 } });
    // Nothing was tested since, so there is nothing to hold against it.
    expect([again.adopted?.id, again.later]).toEqual([adopted.id, undefined]);
    const other = await station.ask(routes.athlete, { params: of('Emeka'), query: { metric: 'rfd_0_200' } });
    expect(other.noise.squad?.adopted).toBeUndefined();
    const params = { ...inExample, id: adopted.id };
    expect(await station.ask(followRoutes.endAdoption, { params, body: { reason: 'plates moved', by } })).toEqual([]);
    expect(
      (await station.ask(routes.athlete, { params: of('Emeka'), query: {} })).noise.squad?.adopted,
    ).toBeUndefined();
  });

  it('says of everybody in a list what each page says, also where one squad has a study of its own', async () => {
    const table = () => station.ask(routes.squadTable, { params: inExample, query: {} });
    const before = await table();
    const squad = before.squads.find(({ name }) => name === 'Senior eight')?.id as string;
    const query = { squad, sessions: 4 };
    const { study } = await station.ask(routes.reliability, { params: inExample, query });
    const draft = {
      ...query,
      test: 'imtp',
      metric: 'peak_force',
      shown: study?.error.value as number,
      reason: 'ours',
      by,
    };
    const adopted = await station.ask(followRoutes.adopt, { params: inExample, body: draft });
    const { rows } = await table();
    let changed = 0;
    for (const { person, change } of rows) {
      const page = await station.ask(routes.athlete, { params: { ...inExample, id: person.id }, query: {} });
      expect(change).toEqual(page.changes.find(({ reference }) => reference === 'last'));
      const was = before.rows.find((row) => row.person.id === person.id)?.change;
      if (change?.detectable !== was?.detectable) changed += 1;
    }
    const members = await station.ask(routes.squadTable, { params: inExample, query: { squad } });
    expect(changed).toBe(members.rows.length);
    const today = await station.ask(followRoutes.today, { params: inExample, query: {} });
    expect(today.byChance).toBeCloseTo(
      rows.reduce((sum, { change }) => sum + (change?.byChance ?? 0), 0),
      10,
    );
    await station.ask(followRoutes.endAdoption, {
      params: { ...inExample, id: adopted.id },
      body: { reason: 'done', by },
    });
  });

  it('lets two people read trials blind, and compares them only when closed', async () => {
    const draft = { title: 'Onsets', test: 'imtp', trials: 6, readers: ['Ada', 'Bo'], seed: 7, by };
    const study = await station.ask(followRoutes.createBlindStudy, { params: inExample, body: draft });
    const params = { ...inExample, id: study.id };
    expect(await refusal(station.ask(followRoutes.blindResults, { params }))).toEqual([409, 'study-open']);
    for (const reader of [0, 1]) {
      for (;;) {
        const { trial } = await station.ask(followRoutes.blindTask, { params, query: { reader } });
        if (trial === undefined) break;
        const { result } = await station.ask(routes.trial, { params: { ...inExample, id: trial.id } });
        const onset = result.onset.ok ? { onset: result.onset.value.index + 4 * reader } : {};
        const body = { reader, trial: trial.id, ...onset, verdict: result.verdict, by };
        await station.ask(followRoutes.readBlind, { params, body });
      }
    }
    const results = await station.ask(followRoutes.closeBlindStudy, { params, body: { by } });
    expect(results.pairs.map(({ first, second }) => [first, second])).toEqual([
      ['Ada', 'Bo'],
      ['Ada', 'method'],
      ['Bo', 'method'],
    ]);
    const [readers, , method] = results.pairs;
    // Bo put every onset four samples of 1 kHz later.
    expect(readers?.alike).toBe(1);
    expect(readers?.within10).toBe(1);
    if (readers?.reason === 'no-spread') expect(readers.same).toBe(4);
    else expect(readers?.bias?.value).toBe(4);
    expect(results.trials[0]?.sampleRate).toBe(1000);
    expect(method?.judged).toBe(6);
    const body = { reader: 0, trial: results.trials[0]?.id as string, verdict: 'counts', by } as const;
    expect(await refusal(station.ask(followRoutes.readBlind, { params, body }))).toEqual([409, 'study-closed']);
    const many = { ...draft, trials: 200, squad: undefined, test: 'imtp-left' };
    expect(await refusal(station.ask(followRoutes.createBlindStudy, { params: inExample, body: many }))).toEqual([
      422,
      'sample-too-small',
    ]);
  });
});
