import { setTimeout as wait } from 'node:timers/promises';
import { methodRoutes, routes } from '@sthene/contract';
import { defaultJumpMethod, methodReference, recordingOfJumps, simulateJump } from '@sthene/core';
import { formatOf } from '@sthene/formats';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from './station-at.ts';

let station: StationUnderTest;
beforeAll(async () => {
  station = await stationUnderTest();
  await station.ask(routes.createLab, { params: { lab: 'lab' }, body: { name: 'Boathouse' } });
});
afterAll(() => station.end());

const lab = { lab: 'lab' as const };
const heights = [0.27, 0.33, 0.3];

/** Three countermovement jumps in one text file, standing between them. */
async function send(seed: number) {
  const jumps = heights.map((height, i) => simulateJump({ height, plateNoise: 0.5 }, seed + i));
  const text = formatOf('text');
  if (text?.write === undefined) throw new Error('the text format is not listed');
  const bytes = new Uint8Array(await text.write(recordingOfJumps(jumps)));
  return station.ask(routes.upload, { params: lab, query: { name: `jumps-${seed}.csv` }, bytes });
}

const request = (upload: string) => ({
  upload,
  mapping: {
    reading: {},
    inputs: [
      { from: { kind: 'channel' as const, index: 0 }, part: 'left' as const },
      { from: { kind: 'channel' as const, index: 1 }, part: 'right' as const },
    ],
    test: 'countermovement-jump',
    efforts: 'all' as const,
  },
  person: { create: { givenName: 'Nele', familyName: 'Quist' } },
  onDuplicate: 'skip' as const,
  by: 'Operator One',
});

describe('a file with several jumps', () => {
  it('becomes as many trials, each with its span, its events and the jump method', async () => {
    const { id: upload } = await send(1);
    const dry = await station.ask(routes.dryRun, { params: lab, body: request(upload) });
    expect(dry.trials).toHaveLength(3);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    made.trials.forEach(({ headline, peakForce, verdict }, i) => {
      expect(verdict).toBe('counts');
      expect(peakForce).toBeUndefined();
      expect(headline).toMatchObject({ metric: 'jump_height', unit: 'm' });
      expect(Math.abs((headline?.value ?? 0) - (heights[i] ?? 0))).toBeLessThan(0.01);
    });
    const { sha256 } = methodReference(defaultJumpMethod);
    for (const { id } of made.trials) {
      const view = await station.ask(routes.trial, { params: { ...lab, id: id as string } });
      expect(view.result.jump?.phases.map((phase) => phase.id)).toContain('braking');
      expect(view.span).toEqual(view.result.jump?.span);
      expect(view.provenance.method.sha256).toBe(sha256);
    }
    const document = await station.ask(routes.method, { params: { ...lab, id: sha256 } });
    expect(document).toMatchObject({ schema: 'sthene.jump-method/1', name: 'Sthene jumps' });
    const methods = await station.ask(routes.methods, { params: lab });
    expect(methods.map(({ name }) => name)).not.toContain('Sthene jumps');
    const session = await station.ask(routes.session, { params: { ...lab, id: made.session as string } });
    expect(session.headline).toMatchObject({ metric: 'jump_height', n: 3 });
    expect(session.peakForce).toBeUndefined();
    expect(session.rows.map(({ headline }) => headline?.metric)).toEqual(Array(3).fill('jump_height'));
  });

  it('takes an onset by hand and gives the automatic one back, to the last digit', async () => {
    const { id: upload } = await send(40);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    const id = made.trials[1]?.id as string;
    const before = (await station.ask(routes.trial, { params: { ...lab, id } })).result;
    if (!before.onset.ok) throw new Error(before.onset.reason);
    const index = before.onset.value.index - 20;
    const moved = await station.ask(routes.decide, {
      params: { ...lab, id },
      body: { kind: 'onset-by-hand', index, reason: 'A breath before the jump.', by: 'Operator One' },
    });
    expect(moved.result.onset).toMatchObject({ ok: true, value: { index, rule: 'by-hand' } });
    expect(moved.result.metrics.time_to_take_off).not.toEqual(before.metrics.time_to_take_off);
    const back = await station.ask(routes.undo, { params: { ...lab, id }, body: { by: 'Operator One' } });
    expect(back.result).toEqual(before);
  });

  it('is followed by its own headline, and may be overruled', async () => {
    const { id: upload } = await send(80);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    const view = await station.ask(routes.trial, { params: { ...lab, id: made.trials[0]?.id as string } });
    const athlete = await station.ask(routes.athlete, { params: { ...lab, id: view.person.id }, query: {} });
    expect(athlete.metric.id).toBe('jump_height');
    expect(athlete.metrics.map(({ id }) => id)).toContain('rsi_modified');
    expect(athlete.metrics.map(({ id }) => id)).not.toContain('peak_force');
    expect(Math.abs((athlete.sessions[0]?.value ?? 0) - 0.3)).toBeLessThan(0.01);
    const out = await station.ask(routes.decide, {
      params: { ...lab, id: view.id },
      body: { kind: 'exclude', category: 'other', reason: 'Landed beside the plates.', by: 'Operator One' },
    });
    expect(out.state).toBe('excluded');
  });

  it('stays as it is when the archive is judged by another method of isometric tests', async () => {
    const { id: upload } = await send(120);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    const id = made.trials[0]?.id as string;
    const before = await station.ask(routes.trial, { params: { ...lab, id } });
    const by = 'Operator One';
    let run = await station.ask(methodRoutes.startRecomputation, { params: lab, body: { method: 'fixed-75', by } });
    const at = { params: { ...lab, id: run.id } };
    while (run.state === 'running') {
      await wait(100);
      run = await station.ask(methodRoutes.recomputation, at);
    }
    expect(run.state).toBe('finished');
    expect((await station.ask(methodRoutes.recomputationFailures, { ...at, query: {} })).rows).toEqual([]);
    const flips = await station.ask(methodRoutes.recomputationFlips, { ...at, query: {} });
    expect(flips.rows).toEqual([]);
    await station.ask(methodRoutes.adoptRecomputation, { ...at, body: { by, reason: 'As agreed.' } });
    const after = await station.ask(routes.trial, { params: { ...lab, id } });
    expect(after.result).toEqual(before.result);
    expect(after.provenance.method).toEqual(before.provenance.method);
  });

  it('is told in the log of its session, in both languages', async () => {
    const { id: upload } = await send(160);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    for (const [language, title] of [
      ['en', 'Jump height'],
      ['de', 'Sprunghöhe'],
    ] as const) {
      const address = `${station.address}api/labs/lab/reports/session?session=${made.session}&language=${language}&as=html`;
      const answer = await fetch(address);
      expect(answer.status, await answer.clone().text()).toBe(200);
      const page = await answer.text();
      expect(page).toContain(title);
      expect(page).not.toContain(language === 'en' ? 'Peak force' : 'Spitzenkraft');
    }
  });

  it('says how sure each value is, and of its headline on what is handed out', async () => {
    const { id: upload } = await send(200);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    const id = made.trials[0]?.id as string;
    const { result } = await station.ask(routes.trial, { params: { ...lab, id } });
    const found = await station.ask(routes.uncertainty, { params: { ...lab, id } });
    const measured = Object.entries(result.metrics).flatMap(([metric, one]) => ('value' in one ? [metric] : []));
    expect(Object.keys(found.metrics).sort()).toEqual(measured.sort());
    expect(found).toMatchObject({ rigChecked: false, weight: { of: 'standing-before' } });
    const height = found.metrics.jump_height;
    if (height === undefined || 'reason' in height) throw new Error(height?.reason);
    expect(height).toMatchObject({ unit: 'm', coverage: 2, expanded: 2 * height.standard });
    expect(height.parts.map((part) => part.id)).toEqual(['body-weight', 'noise', 'sampling']);
    expect(height.unknown.map((part) => part.id)).toContain('linearity');
    expect(height.flightTiming?.standard).toBeDefined();

    const page = async (kind: 'session' | 'athlete', query: string) =>
      (await fetch(`${station.address}api/labs/lab/reports/${kind}?${query}&as=html`)).text();
    const person = (await station.ask(routes.trial, { params: { ...lab, id } })).person;
    for (const said of [
      await page('session', `session=${made.session}`),
      await page('athlete', `person=${person.code}`),
    ]) {
      expect(said).toMatch(/Uncertainty ±\s?[\d.,]+\sm \(k = 2\)/u);
      expect(said).toContain('Not known and not in it');
    }
  });

  it('is as sure a mean of three as its jumps, each weighed by itself, make it', async () => {
    const { id: upload } = await send(240);
    const made = await station.ask(routes.import, { params: lab, body: request(upload) });
    const parts = await Promise.all(
      made.trials.map(async ({ id }) => {
        const { metrics } = await station.ask(routes.uncertainty, { params: { ...lab, id: id as string } });
        const one = metrics.jump_height;
        if (one === undefined || 'reason' in one) throw new Error(one?.reason);
        return one.standard;
      }),
    );
    const said = await (
      await fetch(`${station.address}api/labs/lab/reports/session?session=${made.session}&as=html`)
    ).text();
    const [, size = ''] = /Uncertainty ±\s?([\d.,]+)\sm/u.exec(said) ?? [];
    // All of what is known here is drawn anew with every jump: the root of the sum of squares over three, k = 2.
    expect(Number(size)).toBeCloseTo((2 * Math.hypot(...parts)) / 3, 3);
  });
});
