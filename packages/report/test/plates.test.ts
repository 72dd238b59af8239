import { describe, expect, it } from 'vitest';
import { csvOf, platesReport, sessionReport, tablesOf } from '../src/index.ts';
import { textOf } from './documents.ts';
import { frame, log } from './fernwater.ts';
import { checkedPlates } from './plates.ts';

describe('the page of a check with known masses', () => {
  const english = platesReport(checkedPlates, frame);

  it('leads with the verdict and how far it goes, and has every figure against its limit', () => {
    const [statement] = english.blocks;
    expect(statement).toMatchObject({
      kind: 'statement',
      word: 'Outside the limits',
      value: expect.stringMatching(/98[01]/),
    });
    const [figures] = tablesOf(english.blocks);
    const rows = figures?.rows.map(([what, plate, found, , standing]) => [
      what?.machine,
      plate?.text,
      found?.value,
      standing?.machine,
    ]);
    expect(rows?.length).toBe(checkedPlates.result.quantities.length);
    expect(rows).toContainEqual(['gain', 'left', expect.closeTo(1.2, 9), 'fail']);
    expect(rows).toContainEqual([
      'hysteresis',
      'right',
      expect.closeTo((100 * 4) / checkedPlates.result.checkedTo, 6),
      'fail',
    ]);
  });

  it('gives the readings for machines with a decimal point', () => {
    const loads = tablesOf(english.blocks).find(({ id }) => id === 'loads');
    expect(loads?.rows).toHaveLength(12);
    expect(csvOf(loads!)).toMatch(/left,196\./);
  });

  it.each(['en', 'de'] as const)('claims no standard and no class in %s', (language) => {
    const said = textOf(platesReport(checkedPlates, { ...frame, language }));
    expect(said).not.toMatch(/\bISO\b|ASTM|calibrated|kalibriert|traceable|rückgeführt/);
    expect(said).toContain(language === 'en' ? 'no calibration certificate' : 'kein Kalibrierschein');
    expect(said).not.toContain('undefined');
    expect(said).not.toContain('NaN');
  });

  it('says what a check lacks', () => {
    const { result, ...rest } = checkedPlates;
    const shortfalls = [{ code: 'few-series', weight: 'look', plate: 'left', got: 2, wanted: 3 }] as const;
    expect(textOf(platesReport({ ...rest, result: { ...result, shortfalls } }, frame))).toContain(
      'left: series: 2, wanted: 3',
    );
  });

  it('stands in the log of a session with its day, word and reach; that there is none is said', () => {
    const rigCheck = { rig: 'Boathouse', at: checkedPlates.at, verdict: 'fails', checkedTo: 981 } as const;
    expect(textOf(sessionReport({ ...log, rigCheck }, frame))).toContain(
      'Boathouse, 2 March 2026: Outside the limits, checked to 981\u00a0N on each plate',
    );
    expect(textOf(sessionReport(log, frame))).toContain('no rig check on record');
  });
});
