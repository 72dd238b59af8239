import { type ForceSelection, recordingOf, simulatePull } from '@sthene/core';
import { expect, it } from 'vitest';
import { suggest } from './suggest.ts';

const both: ForceSelection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
};
const pull = (spec: Parameters<typeof simulatePull>[0] = {}) =>
  recordingOf(simulatePull({ sampleRate: 1000, bodyMass: 70, netForce: 1500, ...spec }, 11));

it('proposes a test with body weight where somebody stands on the plates', () => {
  const { test, efforts, why } = suggest(pull(), both, 1);
  expect([test, efforts]).toEqual(['imtp', 'largest']);
  const standing = why.find(({ code }) => code === 'standing');
  // 70 kg weigh 686.5 N (70 * 9.80665); a stance sways by a few newtons
  expect(standing && 'newtons' in standing ? Math.abs(standing.newtons - 686.5) : 999).toBeLessThan(15);
});

it('proposes the test on one leg where only one side is chosen', () => {
  const left: ForceSelection = { inputs: both.inputs.slice(0, 1) };
  expect(suggest(pull({ limbs: 'left' }), left, 1).test).toBe('imtp-left');
});

it('proposes a test without body weight where nothing rests on the plates', () => {
  const recording = pull();
  const unloaded = recording.channels.map((channel) => {
    const raw = channel.raw as Float64Array;
    const level = raw.slice(0, 500).reduce((sum, value) => sum + value, 0) / 500;
    return { ...channel, raw: raw.map((value) => value - level) };
  });
  const { test, why } = suggest({ ...recording, channels: unloaded }, both, 1);
  expect(test).toBe('isometric-effort');
  expect(why.map(({ code }) => code)).toContain('unloaded');
});

it('sees the standing of somebody who steps on after the recording began', () => {
  expect(suggest(pull({ stepOn: true }), both, 1).test).toBe('imtp');
});

it('says that somebody left the plates in between', () => {
  const recording = pull();
  const flying = recording.channels.map((channel) => ({
    ...channel,
    raw: (channel.raw as Float64Array).map((value, i) => (i >= 300 && i < 700 ? 0 : value)),
  }));
  expect(suggest({ ...recording, channels: flying }, both, 1).why.map(({ code }) => code)).toContain('flight');
  expect(suggest(recording, both, 1).why.map(({ code }) => code)).not.toContain('flight');
});

it('takes the largest effort of each where a file holds several recordings', () => {
  expect(suggest(pull(), both, 5).efforts).toBe('largest');
  expect(suggest(pull(), both, 5).why.at(-1)).toEqual({ code: 'trials' });
});
