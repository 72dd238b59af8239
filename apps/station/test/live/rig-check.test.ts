import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { liveRoutes, type RigCheckDraft, rigCheckRoutes as r, routes } from '@sthene/contract';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { LiveClient } from './live-client.ts';
import { addPeople, addRig, by, inLab, twoPulls, virtual } from './set-up.ts';

const masses = [1, 2, 3, 4].map((n) => ({
  ...{ id: `m${n}`, name: `20 kg (${n})`, mass: 20, known: 'tolerance' as const, within: 0.001, reference: 'M1' },
}));
const gravity = { value: 0, from: 'place' as const, latitude: 52.3, altitude: 80 };

describe('a check of worn virtual plates', () => {
  let station: StationUnderTest;
  let rig = '';
  let check = '';
  let correction = '';
  /** Mean peak of the session before anything was corrected, N. */
  let asMeasured = 0;
  const at = () => ({ params: { ...inLab, id: rig } });
  const checks = () => station.ask(r.rigChecks, at());
  const until = async <T>(what: string, look: () => Promise<T | undefined>): Promise<T> => {
    for (let i = 0; i < 1200; i++) {
      const found = await look();
      if (found !== undefined) return found;
      await new Promise((done) => setTimeout(done, 25));
    }
    throw new Error(`never: ${what}`);
  };
  const refusal = (code: string) => ({ problem: { code } });
  beforeAll(async () => {
    station = await stationUnderTest();
    await station.ask(routes.createLab, { params: inLab, body: { name: 'Boathouse' } });
    rig = await addRig(station, 'A', virtual(15, 'fernwater-worn'));
  });
  afterAll(() => station?.end());

  /** Puts the masses of the next step on and reads it as soon as the plate rests. */
  async function readNext(draft: RigCheckDraft): Promise<RigCheckDraft> {
    const step = draft.steps[draft.next];
    if (step === undefined) throw new Error('nothing is left');
    await station.ask(r.putMasses, { ...at(), body: { plate: step.plate, masses: step.masses, by } });
    return until(`a rest at ${JSON.stringify(step)}`, async () => {
      try {
        return await station.ask(r.readRigCheck, { ...at(), body: { step, anyway: false } });
      } catch (error) {
        const { code } = (error as { problem: { code: string } }).problem;
        // Until the new load is on, the plate shows the one before.
        if (code === 'plate-not-at-rest' || code === 'reading-far-off') return undefined;
        throw error;
      }
    });
  }

  it('needs a rig, a plate that rests, and masses that can be told apart', async () => {
    const body = { masses, gravity, airDensity: 1.2, series: 2, spots: false, by };
    await expect(station.ask(r.beginRigCheck, { params: { ...inLab, id: 'none' }, body })).rejects.toMatchObject(
      refusal('not-found'),
    );
    await expect(station.ask(r.undoRigCheck, at())).rejects.toMatchObject(refusal('no-check-under-way'));
    await station.ask(liveRoutes.openRig, { ...at(), body: { by } });
    await expect(
      station.ask(r.beginRigCheck, { ...at(), body: { ...body, masses: [...masses, ...masses] } }),
    ).rejects.toMatchObject(refusal('request-invalid'));
    const now = await until('rest', async () => {
      const found = await station.ask(r.platesNow, at());
      return found.plates.length === 2 && found.plates.every((one) => one.steadyFor >= found.needed - 1e-9)
        ? found
        : undefined;
    });
    expect(now.plates.map(({ plate }) => plate)).toEqual(['left', 'right']);
    const draft = await station.ask(r.beginRigCheck, { ...at(), body });
    expect(draft.steps).toHaveLength(2 * 2 * 9);
    expect(draft.document.gravity.value).toBeCloseTo(9.812483709897048, 12);
    expect(draft.document.rest.map(({ noise }) => noise)).toEqual([expect.closeTo(0.6, 1), expect.closeTo(0.6, 1)]);
  }, 60_000);

  it('reads from samples only, takes a reading back, and marks what was typed', async () => {
    let draft = (await checks()).draft as RigCheckDraft;
    const first = draft.steps[0]!;
    draft = await readNext(draft);
    expect(draft.next).toBe(1);
    await expect(station.ask(r.readRigCheck, { ...at(), body: { step: first, anyway: false } })).rejects.toMatchObject(
      refusal('step-already-read'),
    );
    // Nothing lies there: a reading for 20 kg is not believed.
    await until('a far reading to be refused', async () => {
      const tried = station.ask(r.readRigCheck, { ...at(), body: { step: draft.steps[1]!, anyway: false } });
      const code = await tried.then(
        () => 'taken',
        (error) => error.problem.code,
      );
      expect(code).not.toBe('taken');
      return code === 'reading-far-off' ? code : undefined;
    });
    draft = await station.ask(r.readRigCheck, {
      ...at(),
      body: { step: draft.steps[1]!, typed: 198.4, anyway: false },
    });
    expect(draft.document.readings.at(-1)).toMatchObject({ origin: 'typed', reading: 198.4 });
    expect(draft.document.readings.at(-1)?.sd).toBeUndefined();
    expect(draft.result.shortfalls.map(({ code }) => code)).toContain('typed');
    draft = await station.ask(r.undoRigCheck, at());
    expect(draft.next).toBe(1);
    expect((await checks()).draft?.document.readings).toHaveLength(1);
  }, 60_000);

  it('finds both faults, and says which plate has which', async () => {
    let draft = (await checks()).draft as RigCheckDraft;
    while (draft.next < draft.steps.length) draft = await readNext(draft);
    expect(draft.document.readings.every(({ origin, sd }) => origin === 'samples' && sd !== undefined)).toBe(true);
    const kept = await station.ask(r.finishRigCheck, { ...at(), body: { note: 'club masses', by } });
    check = kept.id;
    const { verdict, quantities, correction: found } = kept.result;
    expect(verdict).toBe('fails');
    const failed = quantities.filter(({ standing }) => standing === 'fail').map(({ plate, id }) => `${plate} ${id}`);
    expect(failed).toContain('left gain');
    expect(failed).toContain('right hysteresis');
    expect(failed).not.toContain('left hysteresis');
    expect(failed).not.toContain('right gain');
    // The plate of the script shows 1.2 % too much; five readings of 3000 samples each with 0.6 N of noise.
    expect(found.find(({ plate }) => plate === 'left')?.gain).toBeCloseTo(1.012, 3);
    const { checks: list, draft: none, due } = await checks();
    expect([list.length, none, due.standing]).toEqual([1, undefined, 'never']);
    expect((await station.ask(liveRoutes.rig, at())).check).toMatchObject({ verdict: 'fails', corrected: [] });
  }, 120_000);

  it('a session on the plates as they are', async () => {
    const [person = ''] = await addPeople(station);
    const day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoPulls], rigs: [rig], people: [person], handsFree: true, by },
    });
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    await expect(
      station.ask(r.correctRig, { ...at(), body: { check, plates: ['left'], reason: 'Found by masses.', by } }),
    ).rejects.toMatchObject({ problem: { status: 409 } });
    await until('two efforts', async () => {
      const page = await station.ask(routes.sessions, { params: inLab });
      return page.rows[0]?.trials === 2 ? page : undefined;
    });
    await until('the end of the turn', async () => {
      const { entries } = await station.ask(liveRoutes.day, { params: { ...inLab, id: day.id } });
      return entries.every(({ state }) => state === 'done') ? true : undefined;
    });
    await station.ask(liveRoutes.closeDay, { params: { ...inLab, id: day.id }, body: { by } });
  }, 180_000);

  it('is mended by a correction that later streams have, and raw samples do not', async () => {
    await station.ask(liveRoutes.openRig, { ...at(), body: { by } });
    const adopted = await station.ask(r.correctRig, {
      ...at(),
      body: { check, plates: ['left'], reason: 'Found by masses.', by },
    });
    correction = adopted.id;
    expect(adopted).toMatchObject({ by, plates: [{ plate: 'left', gain: expect.closeTo(1.012, 3) }] });
    expect((await station.ask(liveRoutes.rig, at())).check?.corrected).toEqual(['left']);
    const begin = { masses: masses.slice(0, 2), gravity, airDensity: 1.2, series: 1, spots: false, by };
    let draft = await until('a second check', async () =>
      station.ask(r.beginRigCheck, { ...at(), body: begin }).catch(() => undefined),
    );
    expect(draft.document.corrected).toEqual(adopted.plates);
    for (let i = 0; i < 5; i++) draft = await readNext(draft);
    const gain = draft.result.quantities.find(({ id, plate }) => id === 'gain' && plate === 'left');
    expect(Math.abs(gain?.value ?? 9)).toBeLessThan(0.05);
    // What would be adopted next has the first correction in it.
    expect(draft.result.correction.find(({ plate }) => plate === 'left')?.gain).toBeCloseTo(1.012, 3);
    // A pull against a cell is read at the first moment at which it may be: by then it has been held for the whole time.
    await station.ask(r.actOnVirtual, { ...at(), body: { kind: 'clear' } });
    await until('empty plates', async () => {
      const { plates, needed } = await station.ask(r.platesNow, at());
      return plates.every(({ mean, steadyFor }) => Math.abs(mean) < 5 && steadyFor >= needed - 1e-9) || undefined;
    });
    await station.ask(r.actOnVirtual, { ...at(), body: { kind: 'pull', newtons: 1000 } });
    draft = await until('a held pull', () =>
      station.ask(r.extraRigCheck, { ...at(), body: { kind: 'cell', cell: 1000 } }).catch((error) => {
        if (error.problem.code !== 'plate-not-at-rest') throw error;
        return undefined;
      }),
    );
    // Up to 3 N stick on the right plate.
    expect(Math.abs((draft.document.cell[0]?.plates ?? 0) - 1000)).toBeLessThan(5);
    expect(await station.ask(r.dropRigCheck, at())).toEqual({ dropped: true });
    await station.ask(liveRoutes.closeRig, { ...at(), body: { by } });
  }, 120_000);

  it('shows what it does to the earlier session, and does it only when asked', async () => {
    const query = { correction };
    const effect = await station.ask(r.correctionEffect, { ...at(), query });
    expect(effect.sessions).toHaveLength(1);
    const [session] = effect.sessions;
    const { before = 0, after = 0 } = session!;
    // Half of the force is on the left plate, which shows 1.2 % too much.
    expect((100 * (before - after)) / after).toBeGreaterThan(0.4);
    expect((100 * (before - after)) / after).toBeLessThan(0.8);
    const view = () => station.ask(routes.session, { params: { ...inLab, id: session!.session } });
    const stored = await view();
    // The only check failed and its correction was adopted later: nothing is known of the plates of this session as it was measured.
    const checked = async () => {
      const found = stored.rows.map(({ id }) => station.ask(routes.uncertainty, { params: { ...inLab, id } }));
      return (await Promise.all(found)).map(({ rigChecked }) => rigChecked);
    };
    expect(await checked()).toEqual([false, false]);
    const applied = await station.ask(r.applyCorrection, {
      ...at(),
      body: { ...query, reason: 'Measured before the correction.', by },
    });
    expect(applied).toEqual(effect);
    expect(await checked()).toEqual([true, true]);
    const judged = await view();
    expect(judged.bodyWeight?.value).toBeLessThan(stored.bodyWeight?.value ?? 0);
    const peaks: number[] = [];
    for (const { id } of judged.rows) {
      const { metrics } = (await station.ask(routes.trial, { params: { ...inLab, id } })).result;
      const peak = metrics.peak_force !== undefined && 'value' in metrics.peak_force ? metrics.peak_force.value : 0;
      peaks.push(peak);
      // The curve that is shown is the corrected one too.
      const { series, values } = await station.curve(id);
      const total = values[series.findIndex((one) => one.of === 'total')] ?? new Float64Array(0);
      expect(Math.abs(total.reduce((most, force) => Math.max(most, force), 0) - peak)).toBeLessThan(1);
    }
    expect(peaks.reduce((sum, one) => sum + one, 0) / peaks.length).toBeCloseTo(after, 9);
    asMeasured = before;
    // Nothing is left to change, and nothing is changed twice.
    expect((await station.ask(r.correctionEffect, { ...at(), query })).sessions).toEqual([]);
  }, 60_000);

  it('taking it back gives the earlier peak again', async () => {
    const page = await station.ask(routes.sessions, { params: inLab });
    expect(page.rows).toHaveLength(1);
    const none = await station.ask(r.correctRig, {
      ...at(),
      body: { plates: [], reason: 'The plate was repaired.', by },
    });
    const effect = await station.ask(r.correctionEffect, { ...at(), query: { correction: none.id } });
    expect(effect.sessions[0]?.after).toBeGreaterThan(effect.sessions[0]?.before ?? 0);
    expect(effect.sessions[0]?.after).toBeCloseTo(asMeasured, 6);
    expect((await station.ask(liveRoutes.rig, at())).check?.corrected).toEqual([]);
  });

  it('an overdue check is refused, told, or allowed, as the lab has decided', async () => {
    const settings = await station.ask(r.rigCheckSettings, { params: inLab });
    expect(settings).toMatchObject({ overdue: 'warn', interval: 365, limits: {} });
    const day = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-03', tests: [twoPulls], rigs: [rig], people: [], by },
    });
    const open = () => station.ask(liveRoutes.openDay, { params: { ...inLab, id: day.id }, body: { by } });
    const keep = (overdue: 'refuse' | 'warn' | 'allow') =>
      station.ask(r.changeRigCheckSettings, {
        params: inLab,
        body: { ...settings, overdue, limits: { gain: 0.3 }, by },
      });
    await keep('refuse');
    // The only check failed, so there is none that counts.
    await expect(open()).rejects.toMatchObject({ problem: { status: 409, code: 'rig-check-overdue' } });
    expect((await station.ask(liveRoutes.day, { params: { ...inLab, id: day.id } })).status).toBe('planned');
    await keep('warn');
    // A rig that is open already is closed and opened again for the day: what is told of it still stands afterwards.
    await station.ask(liveRoutes.openRig, { ...at(), body: { by } });
    const told = await LiveClient.join(station.address, 'operator', 'tablet-7');
    expect((await open()).status).toBe('open');
    await told.until(() => told.of('alert').some(({ alert }) => alert.code === 'rig-check-overdue'), 10);
    const raised = told.of('alert').findLast(({ alert }) => alert.code === 'rig-check-overdue')?.alert.id;
    expect(told.of('alert-over').some(({ id }) => id === raised)).toBe(false);
    told.close();
    await expect(
      station.ask(r.beginRigCheck, {
        ...at(),
        body: { masses, gravity, airDensity: 1.2, series: 1, spots: false, by },
      }),
    ).rejects.toMatchObject(refusal('day-is-open'));
    await station.ask(liveRoutes.closeDay, { params: { ...inLab, id: day.id }, body: { by } });
    await keep('allow');
    expect((await open()).status).toBe('open');
    const { entries } = await station.ask(routes.audit, { params: inLab, query: {} });
    expect(entries.filter(({ action }) => action === 'setting.set').length).toBeGreaterThanOrEqual(2);
  });

  it('of a closed rig is typed, and never claims to be read', async () => {
    await station.ask(liveRoutes.closeDay, {
      params: { ...inLab, id: (await station.ask(liveRoutes.days, { params: inLab }))[0]?.id ?? '' },
      body: { by },
    });
    let draft = await station.ask(r.beginRigCheck, {
      ...at(),
      body: { masses, gravity, airDensity: 1.2, series: 1, spots: false, by },
    });
    expect(draft.document.plates).toEqual(['left', 'right']);
    expect(draft.result.verdict).toBe('incomplete');
    const [step] = draft.steps;
    await expect(station.ask(r.readRigCheck, { ...at(), body: { step: step!, anyway: false } })).rejects.toMatchObject(
      refusal('rig-not-measuring'),
    );
    draft = await station.ask(r.readRigCheck, { ...at(), body: { step: step!, typed: 0.1, anyway: false } });
    expect(draft.document.readings).toMatchObject([{ origin: 'typed', reading: 0.1 }]);
    await station.ask(r.dropRigCheck, at());
  });

  it('is kept each time it is made, also where it reads the very same, and once where its draft outlived it', async () => {
    const before = (await checks()).checks.length;
    const file = join(station.folder, 'lab', 'rig-check', `${rig}.json`);
    const body = { masses, gravity, airDensity: 1.2, series: 1, spots: false, by };
    const finish = () => station.ask(r.finishRigCheck, { ...at(), body: { note: '', by } });
    const kept: string[] = [];
    let left = '';
    for (const _ of ['once', 'twice']) {
      const { steps } = await station.ask(r.beginRigCheck, { ...at(), body });
      await station.ask(r.readRigCheck, { ...at(), body: { step: steps[0]!, typed: 0.1, anyway: false } });
      left = await readFile(file, 'utf8');
      kept.push((await finish()).id);
    }
    expect(new Set(kept).size).toBe(2);
    expect((await checks()).checks).toHaveLength(before + 2);
    // As a station leaves it that is stopped between the two writes.
    await writeFile(file, left);
    expect((await finish()).id).toBe(kept[1]);
    const { checks: all, draft } = await checks();
    expect([all.length, draft]).toEqual([before + 2, undefined]);
  });
});
