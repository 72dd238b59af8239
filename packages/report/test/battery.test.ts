import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { batteryReport, csvOf, pdfOf, tablesOf } from '../src/index.ts';
import { tested } from './battery.ts';
import { textOf } from './documents.ts';
import { frame } from './fernwater.ts';

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
const young = { ...tested, person: { ...tested.person, birthDate: '2010-01-20' } };

describe('the page of a battery of tests', () => {
  it('gives the same bytes for the same data, and others for other data', async () => {
    const of = async (input = tested) => sha256(await pdfOf(batteryReport(input, frame), 'A4'));
    expect(await of()).toBe(await of());
    expect(await of({ ...tested, apart: 7 })).not.toBe(await of());
  });

  it('shows each ratio beside both of its sides, with error, interval and the word', () => {
    const said = textOf(batteryReport(tested, frame));
    for (const one of [
      '0.78',
      '0.70\u00a0to\u00a00.86',
      'undecided: its interval holds a limit',
      '1560\u00a0N',
      '2000\u00a0N',
    ])
      expect(said).toContain(one);
    expect(said).toContain('a test was done for the first time');
    expect(said).toContain('no session of Squat jump; 2 sessions of results only');
    expect(said).toContain('0.996 over only 4 loads');
    expect(said).toContain('no diagnosis');
    const german = textOf(batteryReport(tested, { ...frame, language: 'de' }));
    expect(german).toContain('0,70\u00a0bis\u00a00,86');
    expect(german).toContain('keine Diagnose');
  });

  it('goes into a table for machines: bare numbers, words of the program', () => {
    const [, ratios] = tablesOf(batteryReport(tested, { ...frame, language: 'de' }).blocks);
    const csv = csvOf(ratios as NonNullable<typeof ratios>);
    expect(csv).toContain('dynamic_strength_index,,2026-07-15,0.78,0.039,0.7036 0.8564,undecided');
    expect(csv).toContain('dynamic_strength_index.isometric,imtp,2026-07-15,2000,80,,3');
    expect(csv).toContain('eccentric_utilisation_ratio,,,,,,test-missing');
  });

  it('of somebody under 18 tells no mass: not by net beside gross either', () => {
    const adult = textOf(batteryReport(tested, frame));
    expect(adult).toContain('1311\u00a0N');
    const minor = textOf(batteryReport(young, frame));
    for (const net of ['1311', '801', '805']) expect(minor).not.toContain(net);
    expect(minor).toContain('\u221218.4\u00a0%');
    expect(minor).toContain('Under 18');
    expect(minor).toContain('Forces without body weight are left out');
  });
});
