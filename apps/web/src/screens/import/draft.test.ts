import { expect, it } from 'vitest';
import { type Draft, type DraftInput, inputsOf, mappingOf, numberIn } from './draft.ts';
import type { SourceInfo } from './worker/messages.ts';

const source = (index: number, unit: string): SourceInfo => ({
  kind: 'channel',
  index,
  name: `ch${index}`,
  unit,
  usable: true,
});
const row = (index: number, part: Partial<DraftInput>): DraftInput => ({
  kind: 'channel',
  index,
  name: `ch${index}`,
  use: 'no',
  unit: '',
  flipped: false,
  gain: '',
  zero: '',
  ...part,
});
const draft = (inputs: readonly DraftInput[]): Draft => ({
  reading: {},
  inputs,
  test: 'imtp',
  efforts: 'largest',
  why: [],
  certain: true,
  remember: false,
  rememberAs: '',
});

it('reads numbers as people type them', () => {
  expect([
    numberIn('0,02'),
    numberIn(' 12.5 '),
    numberIn('\u22123'),
    numberIn(''),
    numberIn('1 0'),
    numberIn('x'),
  ]).toEqual([0.02, 12.5, -3, undefined, undefined, undefined]);
});

it('sends a unit only where it is not the one of the file, and a sign only where it is turned', () => {
  const made = inputsOf(
    { inputs: [row(0, { use: 'left', unit: 'N' }), row(1, { use: 'right', unit: 'kgf', flipped: true }), row(2, {})] },
    [source(0, 'N'), source(1, 'N'), source(2, 'N')],
  );
  expect(made).toEqual({
    ok: true,
    value: [
      { from: { kind: 'channel', index: 0 }, part: 'left' },
      { from: { kind: 'channel', index: 1 }, part: 'right', unit: 'kgf', sign: -1 },
    ],
  });
});

it('asks for a gain of volts and takes it with a comma', () => {
  const volts = (gain: string) =>
    inputsOf({ inputs: [row(0, { use: 'total', unit: 'V', gain, zero: '0,1' })] }, [source(0, 'V')]);
  expect(volts('')).toEqual({ ok: false, missing: expect.stringContaining('ch0') });
  expect(volts('a lot').ok).toBe(false);
  expect(volts('812,5')).toEqual({
    ok: true,
    value: [{ from: { kind: 'channel', index: 0 }, part: 'total', newtonsPerUnit: 812.5, zero: 0.1 }],
  });
});

it('turns kilograms into newtons with standard gravity and refuses what is no weight', () => {
  const inputs = [row(0, { use: 'total', unit: 'N' })];
  const of = (text: string, unit: 'kg' | 'N') => mappingOf(draft(inputs), [source(0, 'N')], { text, unit });
  // 9.80665 m/s^2: 3rd CGPM, 1901
  expect(of('70', 'kg')).toMatchObject({ ok: true, value: { bodyWeight: 70 * 9.80665 } });
  expect(of('700', 'N')).toMatchObject({ ok: true, value: { bodyWeight: 700 } });
  expect(of('-1', 'kg').ok).toBe(false);
  const none = of('', 'kg');
  expect(none.ok && 'bodyWeight' in none.value).toBe(false);
});
