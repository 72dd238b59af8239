import { describe, expect, it } from 'vitest';
import { csvOf, platesReport, sessionReport, tablesOf } from '../src/index.ts';
import { textOf } from './documents.ts';
import { frame, log } from './fernwater.ts';
import { atFivePlaces, checkedPlates, checksOf } from './plates.ts';

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

  // 392.16 N on five places, the back left corner 1 % weak: -1 % of the centre, and a spread of 1 / 0.998 %.
  it.each([
    ['en', 'back left'],
    ['de', 'hinten links'],
  ] as const)(
    'names each of five places with what it showed in %s, and has no such table without them',
    (language, weak) => {
      const page = platesReport(atFivePlaces, { ...frame, language });
      const places = tablesOf(page.blocks).find(({ id }) => id === 'places');
      expect(places?.rows.map(([plate, place]) => [plate?.text, place?.machine])).toEqual(
        ['centre', 'front-left', 'front-right', 'back-left', 'back-right'].map((place) => ['right', place]),
      );
      const [, place, load, reading, off] = places?.rows[3] ?? [];
      expect([place?.text, reading?.value, off?.value]).toEqual([
        weak,
        expect.closeTo(0.99 * (load?.value as number), 9),
        expect.closeTo(-1, 9),
      ]);
      const { quantities } = atFivePlaces.result;
      expect(quantities.find(({ id }) => id === 'spots')?.value).toBeCloseTo(1 / 0.998, 9);
      expect(tablesOf(english.blocks).map(({ id }) => id)).not.toContain('places');
    },
  );

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

  it.each([
    ['en', 'there is no trend yet', 'Plate left: 20 checks, 2 March 2007 to 2 March 2026'],
    ['de', 'einen Verlauf gibt es noch nicht', 'Platte left: 20 Prüfungen, 2. März 2007 bis 2. März 2026'],
  ] as const)('draws each plate over its checks in %s, and says where there is but one', (language, none, caption) => {
    const page = (n: number) => platesReport({ ...checkedPlates, history: checksOf(n) }, { ...frame, language });
    const figures = (n: number) =>
      page(n).blocks.flatMap((one) =>
        one.kind === 'figure' && one.figure.id.startsWith('history-') ? [one.figure] : [],
      );
    expect(textOf(page(1))).toContain(none);
    expect(figures(1)).toEqual([]);
    expect(textOf(page(20))).not.toContain(none);
    const [left, right] = figures(20);
    expect(left?.caption).toBe(caption);
    expect(right?.id).toBe('history-right');
    // 20 points of each of gain, zero and noise; limits of gain and zero on both sides, of the noise above.
    expect(left?.svg.match(/<circle/g)).toHaveLength(60);
    expect(left?.svg.match(/stroke-dasharray="1 2"/g)).toHaveLength(5);
    // Dates below do not run into each other: a year is about 20 points wide.
    const dates = [...(left?.svg.matchAll(/x="([\d.]+)" y="(\d+)"[^>]*>(\d{4})</g) ?? [])].map(([, x]) => Number(x));
    expect(dates.length).toBeGreaterThan(3);
    for (const [i, x] of dates.slice(1).entries()) expect(x - dates[i]!).toBeGreaterThan(24);
    // Told apart by form: nothing has a colour of its own.
    expect(left?.svg.replaceAll(/#1b1b1b|#5c5c5c|#d4d4d4|#ffffff/g, '')).not.toMatch(/#[0-9a-f]{6}/);
  });

  it('stands in the log of a session with its day, word and reach; that there is none is said', () => {
    const rigCheck = { rig: 'Boathouse', at: checkedPlates.at, verdict: 'fails', checkedTo: 981 } as const;
    expect(textOf(sessionReport({ ...log, rigCheck }, frame))).toContain(
      'Boathouse, 2 March 2026: Outside the limits, checked to 981\u00a0N',
    );
    expect(textOf(sessionReport(log, frame))).toContain('no rig check on record');
  });
});
