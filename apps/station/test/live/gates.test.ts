import type { Readiness } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import type { Gate } from '@sthene/store';
import { describe, expect, it } from 'vitest';
import { playForward, secondsToEnd } from '../../src/live/day/forecast.ts';
import { standingGates } from '../../src/live/day/gates.ts';
import { heatsOf } from '../../src/live/day/heats.ts';
import { chooseNext } from '../../src/live/day/order.ts';

const date = '2026-03-02';
const imtp = protocolRegistry.get('imtp')!;
const left = protocolRegistry.get('imtp-left')!;
const right = protocolRegistry.get('imtp-right')!;
let count = 0;
const record = (kind: Gate['kind'], more: Partial<Gate> = {}): Gate => ({
  id: `g-${++count}`,
  revision: 1,
  person: 'p-wren',
  kind,
  granted: true,
  limb: 'both',
  from: '2026-01-01',
  note: '',
  ...more,
});
const screened = record('screening');
const allowed = (gates: readonly Gate[], more: Partial<Parameters<typeof standingGates>[0]> = {}) =>
  standingGates({ gates, protocol: imtp, date, birthDate: '1999-04-01', ...more }).allowed;
const answers: Readiness = { pain: false, injury: false, screened: true, consent: true, warmedUp: true, note: '' };

describe('clearances, screening and consent are gates', () => {
  it('asks where nothing is on record, and an answer settles it', () => {
    expect(allowed([])).toBe('after-answers');
    expect(allowed([], { readiness: answers })).toBe('maximal');
    expect(allowed([screened])).toBe('maximal');
  });

  it('blocks by limb and by test, and only those', () => {
    const noLeft = record('clearance', { granted: false, limb: 'left' });
    expect(allowed([screened, noLeft])).toBe('nothing');
    expect(allowed([screened, noLeft], { protocol: left })).toBe('nothing');
    expect(allowed([screened, noLeft], { protocol: right })).toBe('maximal');
    const noImtp = record('clearance', { granted: false, test: 'imtp' });
    expect(allowed([screened, noImtp])).toBe('nothing');
    expect(allowed([screened, noImtp], { protocol: left })).toBe('maximal');
  });

  it('lets only submaximal efforts through where it is so restricted, until it is lifted or over', () => {
    const light = record('submaximal-only', { limb: 'left' });
    expect(allowed([screened, light], { protocol: left })).toBe('submaximal');
    expect(allowed([screened, light], { protocol: right })).toBe('maximal');
    const released = { by: 'operator-1', at: '2026-03-01T10:00:00Z' as never, reason: 'healed' };
    expect(allowed([screened, { ...light, released }], { protocol: left })).toBe('maximal');
    expect(allowed([screened, record('submaximal-only', { until: '2026-03-01' })])).toBe('maximal');
    expect(allowed([screened, record('submaximal-only', { until: date })])).toBe('submaximal');
    expect(allowed([screened, record('submaximal-only', { from: '2026-03-03' })])).toBe('maximal');
  });

  it('ends a screening and a consent on their dates, whatever is answered', () => {
    const over = record('screening', { until: '2026-03-01' });
    expect(allowed([over], { readiness: answers })).toBe('nothing');
    expect(allowed([record('screening', { until: date })])).toBe('maximal');
    const minor = { birthDate: '2011-05-01' };
    expect(allowed([screened], minor)).toBe('after-answers');
    expect(allowed([screened, record('consent')], minor)).toBe('maximal');
    expect(allowed([screened, record('consent', { until: '2026-03-01' })], minor)).toBe('nothing');
    expect(allowed([screened, record('consent', { granted: false })], minor)).toBe('nothing');
    // On the birthday no consent is needed any more.
    expect(allowed([screened], { birthDate: '2008-03-02' })).toBe('maximal');
    expect(allowed([screened], { birthDate: '2008-03-03' })).toBe('after-answers');
  });

  it('ends a medical clearance on its date', () => {
    expect(allowed([screened, record('clearance', { until: '2026-03-01' })])).toBe('nothing');
    expect(allowed([screened, record('clearance', { until: date })])).toBe('maximal');
  });

  it('blocks maximal efforts after a pain stop until it is released, and every effort with pain today', () => {
    const stop = record('pain-stop', { from: date, until: date });
    expect(allowed([screened, stop])).toBe('submaximal');
    expect(allowed([screened], { readiness: { ...answers, pain: true } })).toBe('nothing');
    expect(allowed([screened], { readiness: { ...answers, injury: true } })).toBe('nothing');
    expect(allowed([screened, record('clearance')], { readiness: { ...answers, injury: true } })).toBe('maximal');
  });
});

describe('who is next', () => {
  const one = (entry: string, more: object = {}) => ({
    entry,
    position: Number(entry.slice(1)),
    left: 2,
    begun: false,
    readyAt: 0,
    heat: 1,
    ...more,
  });

  it('nobody waits while another rests, and nobody is on two rigs', () => {
    const resting = one('e1', { begun: true, readyAt: 5000 });
    expect(chooseNext(['A'], [resting, one('e2'), one('e3')], 0)).toEqual([{ rig: 'A', entry: 'e2', at: 0 }]);
    expect(chooseNext(['A'], [resting, one('e2'), one('e3')], 6000)[0]?.entry).toBe('e1');
    const both = chooseNext(['A', 'B'], [one('e1'), one('e2')], 0);
    expect(new Set(both.map(({ entry }) => entry)).size).toBe(2);
    expect(chooseNext(['A', 'B'], [one('e1')], 0)).toHaveLength(1);
  });

  it('late arrivals take their place, who left early makes room', () => {
    expect(chooseNext(['A'], [one('e2'), one('e1.5', { position: 1.5 })], 0)[0]?.entry).toBe('e1.5');
    expect(chooseNext(['A'], [one('e1', { left: 0 }), one('e2')], 0)[0]?.entry).toBe('e2');
  });

  it('keeps everybody on the rig they began on', () => {
    const order = chooseNext(['A', 'B'], [one('e1', { rig: 'B' }), one('e2', { rig: 'B' }), one('e3')], 0);
    expect(order.find(({ rig }) => rig === 'B')?.entry).toBe('e1');
    expect(order.find(({ rig }) => rig === 'A')?.entry).toBe('e3');
  });

  it('calls nobody of a heat before the heat in front of it is through', () => {
    const second = one('e3', { heat: 2 });
    const resting = one('e1', { begun: true, readyAt: 5000 });
    expect(chooseNext(['A'], [resting, second], 0)).toEqual([{ rig: 'A', entry: 'e1', at: 5000 }]);
    expect(chooseNext(['A'], [one('e1', { onRig: true }), second], 0)).toEqual([]);
    expect(chooseNext(['A'], [one('e1', { left: 0 }), second], 0)[0]?.entry).toBe('e3');
    // A second rig does not begin the next heat with what the first rig leaves.
    expect(chooseNext(['A', 'B'], [one('e1'), second], 0)).toEqual([{ rig: 'A', entry: 'e1', at: 0 }]);
    // Whoever may not use a rig does not hold it up.
    const elsewhere = one('e1', { rig: 'A' });
    expect(chooseNext(['A', 'B'], [elsewhere, second], 0).find(({ rig }) => rig === 'B')?.entry).toBe('e3');
  });

  it('puts people into heats by the running order, each into one', () => {
    const heats = heatsOf(['a', 'b', 'c', 'a', 'd', 'e'], 2);
    expect(Object.fromEntries(heats)).toEqual({ a: 1, b: 1, c: 2, d: 2, e: 3 });
    expect(new Set(heatsOf(['a', 'b', 'c'], undefined).values())).toEqual(new Set([1]));
  });
});

it('forecasts when each heat begins', () => {
  const entry = (id: string, heat: number, more: object = {}) => ({
    entry: id,
    position: heat,
    begun: false,
    readyIn: 0,
    remaining: [{ kind: 'maximal' as const }, { kind: 'maximal' as const }],
    rest: 180,
    heat,
    ...more,
  });
  // Two efforts of 60 s with a rest of 180 s between them take 300 s, alone; then the next heat begins.
  const day = playForward(['A'], [entry('a', 1), entry('b', 2), entry('c', 3)], 60);
  expect(Object.fromEntries(day.heats)).toEqual({ 1: 0, 2: 300, 3: 600 });
  expect(day.end).toBe(900);
  // One group would be through after two rounds of three.
  expect(
    playForward(
      ['A'],
      ['a', 'b', 'c'].map((id) => entry(id, 1)),
      60,
    ).end,
  ).toBe(420);
  // A heat that has begun is not forecast.
  const running = [entry('a', 1, { onRig: 'A', begun: true }), entry('b', 2)];
  expect(Object.fromEntries(playForward(['A'], running, 60).heats)).toEqual({ 2: 300 });
});

it('forecasts the end by playing the day forward', () => {
  const entry = (id: string, efforts: number) => ({
    entry: id,
    position: 1,
    begun: false,
    readyIn: 0,
    remaining: Array.from({ length: efforts }, () => ({ kind: 'maximal' as const })),
    rest: 180,
  });
  // Alone: two efforts of 60 s with a rest of 180 s between.
  expect(secondsToEnd(['A'], [entry('a', 2)], 60)).toBe(300);
  // Three alternate: the rests are filled by the others.
  expect(secondsToEnd(['A'], [entry('a', 2), entry('b', 2), entry('c', 2)], 60)).toBe(420);
  expect(secondsToEnd(['A', 'B'], [entry('a', 1), entry('b', 1)], 60)).toBe(60);
  expect(secondsToEnd(['A'], [], 60)).toBe(0);
  expect(secondsToEnd([], [entry('a', 1)], 60)).toBe(0);
});
