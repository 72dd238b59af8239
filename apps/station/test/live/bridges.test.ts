import { liveRoutes, routes } from '@sthene/contract';
import type { Recording } from '@sthene/core';
import { bytesOf, formatOf } from '@sthene/formats';
import type { Store, TrialOrigin } from '@sthene/store';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type StationUnderTest, stationUnderTest } from '../station-at.ts';
import { bridgeDescription, bridgePorts, type SentSample } from './bridged-plates.ts';
import { LiveClient } from './live-client.ts';
import { expectSameReplayed } from './replayed.ts';
import { addPeople, addRig, by, inLab, twoPulls } from './set-up.ts';
import { expectSameAgain, withStore } from './stored.ts';

const calibration = bridgeDescription.calibration ?? [];
const bridges = bridgeDescription.channels.map(({ name }) => name);

interface Kept {
  readonly recording: Recording;
  readonly origin: TrialOrigin;
  readonly peak: number;
}

/** Stored recordings of live trials, where in the stream they lie, and the peak force that was found in each. */
async function keptTrials(store: Store): Promise<Kept[]> {
  const found: Kept[] = [];
  for (const { session } of (await store.sessions.list({ limit: 50 })).items)
    for (const trial of await store.trials.ofSession(session.id)) {
      const bytes = trial.recording && (await store.recordings.bytes(trial.recording));
      const origin = await store.origins.ofTrial(trial.id);
      if (!bytes || origin === undefined) continue;
      const read = await formatOf('parquet')?.read(bytesOf(new Uint8Array(bytes), 'trial.parquet'), {});
      if (read?.ok !== true || read.recordings[0] === undefined) throw new Error('the recording cannot be read');
      const peak = (await store.results.current(trial.id))?.document.metrics.peak_force;
      found.push({
        recording: read.recordings[0].recording,
        origin,
        peak: peak !== undefined && 'value' in peak ? peak.value : Number.NaN,
      });
    }
  return found;
}

describe('a day on plates of four bridges each, by a calibration matrix', () => {
  let station: StationUnderTest;
  let operator: LiveClient;
  let rig = '';
  let day = '';
  const sent: SentSample[] = [];
  let kept: Kept[] = [];
  beforeAll(async () => {
    station = await stationUnderTest(undefined, undefined, bridgePorts(sent));
    await station.ask(routes.createLab, { params: inLab, body: {} });
    const [first = ''] = await addPeople(station);
    rig = await addRig(station, 'A', bridgeDescription);
    const planned = await station.ask(liveRoutes.createDay, {
      params: inLab,
      body: { date: '2026-03-02', tests: [twoPulls], rigs: [rig], people: [first], handsFree: true, by },
    });
    day = planned.id;
    operator = await LiveClient.join(station.address, 'operator', 'tablet-1');
    await operator.probe();
    operator.send({ type: 'take-controls' });
    await operator.next('controls', ({ controls }) => controls.holder === 'tablet-1');
    await station.ask(liveRoutes.openDay, { params: { ...inLab, id: day }, body: { by } });
  });
  afterAll(async () => {
    operator?.close();
    await station?.end();
  });

  it('is judged by the forces that the matrix makes', { timeout: 200_000 }, async () => {
    const verdicts = () => operator.of('verdict').map(({ verdict }) => verdict);
    await operator.until(() => new Set(verdicts().map(({ trial }) => trial)).size >= 2, 150);
    expect(verdicts().map(({ verdict }) => verdict)).toEqual(['counts', 'counts']);
    await expectSameAgain(station.folder, 2);
    kept = await withStore(station.folder, keptTrials);
    expect(kept).toHaveLength(2);
  });

  it('shows signals and forces on the rig, each with whether it is at its limit', async () => {
    const { channels } = await station.ask(liveRoutes.rig, { params: { ...inLab, id: rig } });
    expect(channels.map(({ name, axis, unit, second }) => [name, axis, unit, second?.saturated])).toEqual([
      ...bridges.map((name) => [name, 'other', 'mV/V', false]),
      ...['left', 'right'].flatMap((side) => [
        [`Fz ${side}`, 'z', 'N', false],
        [`My ${side}`, 'my', 'N.m', false],
      ]),
    ]);
  });

  it('keeps every signal as it was sent beside the forces, which are the certificate times the signals', () => {
    for (const { recording, origin, peak } of kept) {
      // Forces first, as they are analysed; behind them all others in the order of the stream.
      expect(recording.channels.map(({ name }) => name)).toEqual([
        ...['Fz left', 'Fz right'],
        ...bridges,
        ...['My left', 'My right'],
      ]);
      const column = (name: string) => recording.channels.find((one) => one.name === name)?.raw as Float64Array;
      const signals = bridges.map(column);
      const [left, right] = [column('Fz left'), column('Fz right')];
      const of = (n: number) => sent[origin.span.start + n] as SentSample;
      let highest = 0;
      let otherThanSent = 0;
      let furthest = 0;
      for (let n = 0; n < recording.sampleCount; n++) {
        const { counts, forces } = of(n);
        if (signals.some((raw, c) => raw[n] !== counts[c])) otherThanSent++;
        furthest = Math.max(furthest, Math.abs(left[n]! - forces[0]), Math.abs(right[n]! - forces[1]));
        highest = Math.max(highest, forces[0] + forces[1]);
      }
      expect(otherThanSent).toBe(0);
      // A count is 0.25 N, so that four rounded ones are within 0.6 N of the force that stood there.
      expect(furthest).toBeGreaterThan(0);
      expect(furthest).toBeLessThan(0.6);
      // The product once more, written out here.
      for (const { matrix, signals: names, channels } of calibration)
        channels.forEach(({ name }, row) => {
          const made = column(name);
          let apart = 0;
          for (let n = 0; n < recording.sampleCount; n++) {
            let product = 0;
            names.forEach((signal, c) => {
              const at = bridges.indexOf(signal);
              const { scale, offset } = bridgeDescription.channels[at]!;
              product += matrix[row]![c]! * scale * (signals[at]![n]! - offset);
            });
            apart = Math.max(apart, Math.abs(made[n]! - product));
          }
          expect(apart, name).toBeLessThan(1e-9);
        });
      // The zero of the empty plates, at most a few newtons, is taken off the peak.
      expect(Math.abs(peak - highest)).toBeLessThan(5);
      expect(peak).toBeGreaterThan(1000);
    }
  });

  it('says in each recording what was made of what', () => {
    const made = calibration.flatMap(({ signals, matrix, channels }) =>
      channels.map(({ name }, row) => ({
        name,
        madeOf: signals.map((channel, c) => ({ channel, factor: matrix[row]?.[c] })),
      })),
    );
    for (const { recording } of kept) {
      const told = JSON.parse(recording.facts.calibration ?? '[]') as typeof made;
      expect(told).toEqual([made[0], made[2], made[1], made[3]]);
    }
  });

  it('is the same when the journal is run again', async () => {
    await station.ask(liveRoutes.closeDay, { params: { ...inLab, id: day }, body: { by } });
    await expectSameReplayed(station.folder, 2);
  });
});
