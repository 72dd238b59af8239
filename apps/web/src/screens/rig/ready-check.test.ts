import type { RigView } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { readyCheck } from './ready-check.ts';

const rest = (mean: number) => ({ mean, sd: 0.8, saturated: false });
const rig: RigView = {
  id: 'a',
  revision: 1,
  name: 'Rack one',
  letter: 'A',
  shape: 'circle',
  notes: '',
  sources: [],
  state: 'measuring',
  words: 'Samples arrive.',
  device: 'FW-0007',
  lastSample: 12,
  rate: { promised: 1000, measured: 1000.4, uncertainty: 0.2, differs: false },
  channels: [
    { name: 'left', plate: 'L', side: 'left', axis: 'z', unit: 'N', zero: 1, noise: 0.7, second: rest(1.5) },
    { name: 'right', plate: 'R', side: 'right', axis: 'z', unit: 'N', zero: 1, noise: 0.9, second: rest(0.2) },
  ],
  counts: { samples: 60_000, gaps: 0, missing: 0, doubled: 0, late: 0, swapped: 0, checksum: 0, unreadable: 0 },
  zero: { at: '2026-01-14T16:20:00Z', held: true, words: 'Taken.' },
  disk: { bytesPerSecond: 32_000, secondsLeft: 86_400, warning: false },
  clock: { evidence: 'good', words: 'Tied.' },
};
const confirmed = { recording: true, age: 80, heard: 40 };
const standing = (id: string, view: RigView, now: typeof confirmed | undefined = confirmed) =>
  readyCheck(view, now).find((row) => row.id === id)?.standing;

describe('readyCheck', () => {
  it('is good where everything is, and leaves the known-mass check open', () => {
    const rows = readyCheck(rig, confirmed);
    expect(rows.filter(({ standing }) => standing !== 'good').map(({ id }) => id)).toEqual(['known-mass']);
    expect(rows.find(({ id }) => id === 'rate')?.value).toBe('1000.40 \u00b1\u00a00.20\u00a0Hz');
    expect(rows.find(({ id }) => id === 'noise')?.words).toContain('right');
  });
  it('says what the newest check with known masses found, and when the next is due', () => {
    const check = {
      standing: 'good',
      at: '2026-01-10T10:00:00Z',
      verdict: 'passes',
      checkedTo: 981,
      corrected: [],
      failed: false,
    } as const;
    const line = (more: Partial<NonNullable<RigView['check']>>) =>
      readyCheck({ ...rig, check: { ...check, corrected: [], ...more } }).find(({ id }) => id === 'known-mass');
    expect(line({})).toMatchObject({ standing: 'good', value: '10 January 2026' });
    expect(line({})?.words).toContain('981\u00a0N');
    expect(line({ standing: 'overdue', due: '2026-01-12T10:00:00Z' })?.standing).toBe('look');
    expect(line({ verdict: 'fails', failed: true })?.standing).toBe('bad');
    expect(line({ verdict: 'fails', failed: true, standing: 'overdue' })?.standing).toBe('bad');
    expect(line({ corrected: ['left'] })?.words).toContain('Corrected: left.');
  });
  it('says of a closed rig that nothing can be said', () => {
    const closed: RigView = {
      ...rig,
      state: 'closed',
      rate: { promised: 1000, differs: false },
      channels: [],
      counts: { ...rig.counts, samples: 0 },
      zero: { held: false, words: 'None.' },
      disk: { bytesPerSecond: 0, warning: false },
      clock: { evidence: 'none', words: 'None.' },
    };
    expect(new Set(readyCheck(closed).map((row) => row.standing))).toEqual(new Set(['open']));
  });
  it('names each trouble', () => {
    expect(standing('state', { ...rig, state: 'lost' })).toBe('bad');
    expect(standing('rate', { ...rig, rate: { promised: 1000, measured: 990, differs: true } })).toBe('look');
    expect(standing('counts', { ...rig, counts: { ...rig.counts, gaps: 1, missing: 12 } })).toBe('look');
    expect(standing('counts', { ...rig, counts: { ...rig.counts, checksum: 2 } })).toBe('look');
    expect(standing('disk', { ...rig, disk: { bytesPerSecond: 1, secondsLeft: 600, warning: true } })).toBe('bad');
    expect(standing('disk', { ...rig, disk: { bytesPerSecond: 1, secondsLeft: 1200, warning: true } })).toBe('look');
    expect(standing('clock', { ...rig, clock: { evidence: 'old', words: '' } })).toBe('look');
    expect(standing('clock', { ...rig, clock: { evidence: 'none', words: '' } })).toBe('look');
    expect(standing('noise', { ...rig, channels: rig.channels.map((one) => ({ ...one, noise: 10.1 })) })).toBe('look');
  });
  const channels = (change: (one: RigView['channels'][number]) => object): RigView => ({
    ...rig,
    channels: rig.channels.map((one) => ({ ...one, ...change(one) })),
  });
  const line = (id: string, view: RigView) => readyCheck(view, confirmed).find((row) => row.id === id);
  it('sees the zero wander while the plates are empty, and only then', () => {
    expect(line('zero', rig)).toMatchObject({ standing: 'good' });
    expect(line('zero', rig)?.words).toContain('holds');
    const moved = channels(() => ({ second: rest(7.5) }));
    expect(line('zero', moved)).toMatchObject({ standing: 'look' });
    expect(line('zero', moved)?.words).toContain('6.5');
    expect(
      line(
        'zero',
        channels(() => ({ second: rest(400) })),
      ),
    ).toMatchObject({ standing: 'good', words: 'Taken.' });
  });
  it('tells a plate at its limit, and does not guess a range that is not described', () => {
    const full = channels(({ name }) => ({ second: { ...rest(1), saturated: name === 'right' } }));
    expect(line('range', full)).toMatchObject({ standing: 'bad' });
    expect(line('range', full)?.words).toMatch(/^right:/);
    expect(
      line(
        'range',
        channels(() => ({ second: { mean: 1, sd: 1 } })),
      )?.standing,
    ).toBe('open');
    expect(
      line(
        'range',
        channels(() => ({ second: undefined })),
      )?.standing,
    ).toBe('open');
  });
  it('asks no range of shear forces and moments, and one of raw signals', () => {
    const beside = (axis: 'mx' | 'x' | 'other'): RigView => ({
      ...rig,
      channels: [
        ...rig.channels,
        { name: 'more', plate: 'L', side: 'left', axis, unit: 'N', zero: 0, noise: 0.1, second: { mean: 0, sd: 0.1 } },
      ],
    });
    expect(line('range', beside('mx'))).toMatchObject({ standing: 'good' });
    expect(line('range', beside('x'))).toMatchObject({ standing: 'good' });
    expect(line('range', beside('other'))).toMatchObject({ standing: 'open' });
  });
  it('judges noise before a zero by the last second, and names mains hum', () => {
    const early = channels(() => ({
      noise: undefined,
      second: { ...rest(1), mains: { frequency: 50, amplitude: 0.6 } },
    }));
    expect(line('noise', early)).toMatchObject({ standing: 'good' });
    expect(line('noise', early)?.words).toMatch(/last second.*50/s);
  });
  it('shows the device, and for how long it has been silent', () => {
    expect(line('device', rig)).toMatchObject({ standing: 'good', value: 'FW-0007' });
    expect(line('state', { ...rig, state: 'quiet', lastSample: 4200 })?.value).toMatch(/Quiet, for 4/);
  });
  it('counts the silence since the last confirmation as age', () => {
    expect(standing('confirmed', rig, { recording: true, age: 80, heard: 1200 })).toBe('bad');
    expect(standing('confirmed', rig, { recording: true, age: 400, heard: 600 })).toBe('good');
  });
});
