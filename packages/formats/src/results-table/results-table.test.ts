import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cellNumber,
  dayOrders,
  decimalOf,
  inUnitOf,
  looksLikeResults,
  metricNamed,
  readCsv,
  readDay,
  readResultsTable,
  suggestMapping,
  testNamed,
  unitsFor,
} from './index.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const today = '2026-06-01';
const gridOf = (text: string) => {
  const read = readCsv(bytes(text));
  if (!read.ok) throw new Error(read.error.code);
  return read.grid;
};
const resultsOf = (text: string, change: Partial<ReturnType<typeof suggestMapping>['mapping']> = {}) => {
  const grid = gridOf(text);
  const suggestion = suggestMapping(grid);
  return { suggestion, ...readResultsTable(grid, { ...suggestion.mapping, ...change }, today) };
};

describe('names of metrics', () => {
  it.each([
    ['Peak force', 'N', 'peak_force'],
    ['PF', '', 'peak_force'],
    ['Peak_Force', '', 'peak_force'],
    ['Max force', 'kN', 'peak_force'],
    ['IMTP peak force', 'N', 'peak_force'],
    ['Net peak force', 'N', 'peak_force_net'],
    ['Relative peak force', 'N/kg', 'peak_force_relative'],
    ['Peak force', 'N/kg', 'peak_force_relative'],
    ['Rate of force development 0-100 ms', 'N/s', 'rfd_0_100'],
    ['RFD 0–200ms', '', 'rfd_0_200'],
    ['RFD200', '', 'rfd_0_200'],
    ['RFD 100-200', 'N/s', 'rfd_100_200'],
    ['Force at 100 ms', 'N', 'force_at_100'],
    ['Force @ 250ms', 'N', 'force_at_250'],
    ['F150', 'N', 'force_at_150'],
    ['Net impulse 0-200 ms', '', 'impulse_net_0_200'],
    ['Left peak force', 'N', 'left_peak_force'],
    ['Body mass', 'kg', 'body_mass'],
    ['BW', 'N', 'body_weight'],
    ['rfd_peak_20', '', 'rfd_peak_20'],
    ['Time to peak force', 's', 'time_to_peak'],
  ])('%s [%s] is proposed as %s', (name, unit, id) => {
    expect(metricNamed(name, unit)).toBe(id);
  });

  it.each([
    ['RFD', 'N/s'],
    ['Peak RFD', 'N/s'],
    ['Jump height', 'cm'],
    ['Peak force', 'N/s'],
    ['RFD 0-137 ms', ''],
    ['Force', 'N'],
    ['Rank', ''],
    ['Body weight', 'kg'],
  ])('%s [%s] is left for a person', (name, unit) => {
    expect(metricNamed(name, unit)).toBeUndefined();
  });
});

describe('units', () => {
  // Exact by definition: standard gravity (3rd CGPM 1901), international pound (1959).
  it.each([
    ['peak_force', 2.481, 'kN', 2481],
    ['peak_force', 250, 'kgf', 2451.6625],
    ['peak_force', 250, 'kg', 2451.6625],
    ['peak_force', 550, '[lbf_av]', 2446.52188839],
    ['time_to_peak', 812, 'ms', 0.812],
    ['rfd_0_100', 9.5, 'kN/s', 9500],
    ['force_share_at_100', 0.44, '1', 44],
    ['body_mass', 180, '[lb_av]', 81.6466266],
  ])('%s: %d %s', (metric, value, unit, want) => {
    expect(inUnitOf(metric, value, unit)).toEqual({ value: expect.closeTo(want, 6), unit: expect.any(String) });
  });

  it('leave every bit where nothing is converted, and never mix what is not alike', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(inUnitOf('peak_force', value, 'N')).toEqual({ value, unit: 'N' });
      }),
    );
    expect(inUnitOf('peak_force_relative', 30, 'N')).toBe('cell-unit-unfit');
    expect(inUnitOf('peak_force', 30, 'N/kg')).toBe('cell-unit-unfit');
    expect(inUnitOf('body_weight', 80, 'kg')).toBe('cell-unit-unfit');
    expect(inUnitOf('peak_force', 30, 'furlong')).toBe('cell-unit-unknown');
    expect(unitsFor('peak_force', [{ code: 'kN' }, { code: 'kg' }, { code: 's' }])).toEqual(['N', 'kN', 'kg']);
    expect(unitsFor('peak_force_relative', [{ code: 'N' }, { code: 'N/kg' }])).toEqual(['N/kg']);
  });
});

describe('days', () => {
  it.each([
    ['2019-03-01', 'ymd', '2019-03-01'],
    ['1.3.2019', 'mdy', '2019-03-01'],
    ['01.03.19', 'ymd', '2019-03-01'],
    ['3/1/2019', 'mdy', '2019-03-01'],
    ['3/1/2019', 'dmy', '2019-01-03'],
    ['1 Mar 2019', 'ymd', '2019-03-01'],
    ['March 1, 2019', 'ymd', '2019-03-01'],
    ['20190301', 'ymd', '2019-03-01'],
    // 43525: ECMA-376 part 1, 18.17.4.1
    ['43525', 'ymd', '2019-03-01'],
  ] as const)('%s in the order %s', (text, order, day) => {
    expect(readDay(text, order)).toEqual({ day });
  });

  it('keep time and zone, and are refused where there is no such day', () => {
    expect(readDay('2019-03-01T14:05:09.5Z', 'ymd')).toEqual({ day: '2019-03-01', time: '14:05:09', zone: 'Z' });
    expect(readDay('3/1/2019 2:05 PM', 'mdy')).toEqual({ day: '2019-03-01', time: '14:05' });
    for (const text of ['2019-02-30', '13/13/2019', '2481', '2019', 'today', '1.3.2019 25:00', '3/1/2019'])
      expect(readDay(text, 'ymd')).toBeUndefined();
  });

  it('are asked about only where both orders fit', () => {
    expect(dayOrders(['3/1/2019', '4/2/2019'])).toEqual(['dmy', 'mdy']);
    expect(dayOrders(['3/1/2019', '4/25/2019'])).toEqual(['mdy']);
    expect(dayOrders(['13-1-2019', '4-2-2019'])).toEqual(['dmy']);
    expect(dayOrders(['2019-03-01', '1.3.2019'])).toEqual(['ymd']);
    expect(dayOrders(['3/3/2019'])).toEqual(['ymd']);
  });
});

describe('numbers', () => {
  it.each([
    ['2481.5', '.', 2481.5],
    ['2,481.5', '.', 2481.5],
    ['2 481,5', ',', 2481.5],
    ['2.481,5', ',', 2481.5],
    ['\u22120.5', '.', -0.5],
    ['1e3', '.', 1000],
  ] as const)('%s with %s', (text, decimal, value) => {
    expect(cellNumber(text, decimal)).toEqual({ value });
  });

  it('take a unit that stands in the cell, and refuse words', () => {
    expect(cellNumber('2.481 kN', '.')).toEqual({ value: 2.481, unit: 'kN' });
    for (const text of ['2481 (injured)', '~2481', '24.81.5', '2481*', '=1+1', '1,2,3'])
      expect(cellNumber(text, '.')).toBeUndefined();
  });

  it('say which decimal sign they use, or that they leave it open', () => {
    expect(decimalOf(['2481,5', '2390'])).toEqual({ decimal: ',', sure: true });
    expect(decimalOf(['2.481,5'])).toEqual({ decimal: ',', sure: true });
    expect(decimalOf(['2,481.5'])).toEqual({ decimal: '.', sure: true });
    expect(decimalOf(['2,481', '2,390'], ',')).toEqual({ decimal: '.', sure: false });
    expect(decimalOf(['2,481', '2,390'], ';')).toEqual({ decimal: ',', sure: false });
    expect(decimalOf(['2.481'], ';')).toEqual({ decimal: '.', sure: false });
    expect(decimalOf(['2.481'], ',')).toEqual({ decimal: '.', sure: true });
    expect(decimalOf(['2481'])).toEqual({ decimal: '.', sure: true });
  });
});

const wide = `Boathouse tests;;;;;
;;;;;
Name;Date;Trial;Peak force (kN);RFD 0-100 ms [N/s];Jump height (cm)
Imre Oakes;01.03.2019;1;2,481;10250;31
Imre Oakes;01.03.2019;2;2,512;-;32
;;;;;
Tamsin Ålund;01.03.2019;1;n/a;sehr gut;28
Mean;;;2,4965;10250;
;01.03.2019;1;2,1;9000;30
Nele Quist;30.02.2019;1;2,2;9100;30
Nele Quist;;1;2,2;9100;30
Nele Quist;01.03.2031;1;2,2;9100;30
`;

describe('a wide table', () => {
  it('is understood by its headings', () => {
    const { suggestion } = resultsOf(wide);
    expect(suggestion.mapping).toMatchObject({ header: 3, first: 4, decimal: ',', of: 'trial', delimiter: ';' });
    expect(suggestion.mapping.columns).toEqual([
      { as: 'name' },
      { as: 'date' },
      { as: 'trial' },
      { as: 'values', metric: 'peak_force', unit: 'kN' },
      { as: 'values', metric: 'rfd_0_100', unit: 'N/s' },
      { as: 'ignore' },
    ]);
    expect(suggestion.questions).toEqual([]);
    expect(suggestion.signature).toBe('results:name|date|trial|peak force kn|rfd 0 100 ms n/s|jump height cm');
  });

  it('gives each value in its unit and as it stood, and lists what it could not read', () => {
    const { values, refused, missing, people } = resultsOf(wide);
    expect(values.map(({ row, position, metric, value, unit }) => [row, position, metric, value, unit])).toEqual([
      [4, 1, 'peak_force', 2481, 'N'],
      [4, 1, 'rfd_0_100', 10250, 'N/s'],
      [5, 2, 'peak_force', 2512, 'N'],
    ]);
    expect(values[0]).toMatchObject({ day: '2019-03-01', of: 'trial', given: { value: '2,481', unit: 'kN' } });
    expect(missing).toBe(2);
    expect(people.map(({ name, row }) => [name, row])).toEqual([['Imre Oakes', 4]]);
    expect(refused.map(({ code, row, column, found }) => [code, row, column, found])).toEqual([
      ['cell-not-a-number', 7, 5, 'sehr gut'],
      ['row-is-a-summary', 8, undefined, 'Mean'],
      ['row-without-person', 9, undefined, '01.03.2019 1 2,1 9000 30'],
      ['day-not-readable', 10, 2, '30.02.2019'],
      ['row-without-day', 11, 2, ''],
      ['day-in-the-future', 12, 2, '01.03.2031'],
    ]);
  });

  it('takes trials, means and bests in columns of their own, and a row of units', () => {
    const { suggestion, values } = resultsOf(
      'Code,Date,PF trial 1,PF trial 2,Mean peak force,Best peak force\n,,N,N,kgf,N\nFW-01,2019-03-01,2481,2512,254.6,2512\n',
    );
    expect(suggestion.mapping.first).toBe(3);
    expect(values.map(({ of, position, value }) => [of, position, Math.round(value)])).toEqual([
      ['trial', 1, 2481],
      ['trial', 2, 2512],
      ['mean', undefined, 2497],
      ['best', undefined, 2512],
    ]);
  });
});

describe('a heading', () => {
  const role = (heading: string) => suggestMapping(gridOf(`Name,${heading}\nA,1\n`)).mapping.columns[1];
  it.each([
    ['Force at 100 ms (N)', { metric: 'force_at_100', unit: 'N' }],
    ['Best 1 s mean force [N]', { metric: 'best_mean_1000', unit: 'N' }],
    ['Peak force 2 (trial)', undefined],
    ['Peak force trial 2 (N)', { metric: 'peak_force', unit: 'N', trial: 2, of: 'trial' }],
    ['Rep #3 RFD 0-100 ms', { metric: 'rfd_0_100', unit: 'N/s', trial: 3, of: 'trial' }],
    ['Average PF', { metric: 'peak_force', unit: 'N', of: 'mean' }],
  ])('%s', (heading, want) => {
    expect(role(heading)).toEqual(want === undefined ? { as: 'ignore' } : { as: 'values', ...want });
  });
});

describe('a long table', () => {
  const long =
    'athlete id,test date,test,metric,value,unit\nFW-01,3/1/2019,IMTP,Peak force,2.481,kN\nFW-01,3/1/2019,IMTP,Jump height,31,cm\nFW-01,3/1/2019,Sprint,Peak force,2,kN\nFW-02,4/2/2019,IMTP,Peak force,2400,stones\n';

  it('maps names of metrics and tests, and asks about the order of days', () => {
    const { suggestion, values, refused, leftOut } = resultsOf(long, { dayOrder: 'mdy' });
    expect(suggestion.questions).toEqual(['day-order']);
    expect(suggestion.mapping.metrics).toEqual({ 'Peak force': 'peak_force', 'Jump height': '' });
    expect(suggestion.mapping.tests).toEqual({ IMTP: 'imtp', Sprint: '' });
    expect(values).toEqual([
      expect.objectContaining({ day: '2019-03-01', test: 'imtp', metric: 'peak_force', value: 2481, of: 'unknown' }),
    ]);
    expect(leftOut).toEqual({ 'Jump height': 1 });
    expect(refused.map(({ code, row }) => [code, row])).toEqual([
      ['test-left-out', 4],
      ['cell-unit-unknown', 5],
    ]);
  });
});

describe('a table that is hostile', () => {
  it('of one column, without headings, or with the same heading twice, is no accident', () => {
    expect(suggestMapping(gridOf('a\n1\n2\n')).mapping.columns).toEqual([{ as: 'ignore' }]);
    expect(suggestMapping(gridOf('1,2\n3,4\n')).mapping).toMatchObject({ header: 0, first: 1 });
    const { mapping } = suggestMapping(gridOf('Name,Name,Date,PF,PF\nA,B,2019-01-01,1,2\n'));
    expect(mapping.columns.map(({ as }) => as)).toEqual(['name', 'ignore', 'date', 'values', 'values']);
    const proto = resultsOf('athlete id,date,metric,value\nx,2019-01-01,__proto__,3\nx,2019-01-01,constructor,3\n');
    expect(proto.values).toEqual([]);
  });

  it('of 100,000 rows takes a few seconds of processor time', () => {
    const rows = Array.from(
      { length: 100_000 },
      (_, i) => `FW-${i % 50},2019-03-01,${i % 9},${2000 + (i % 700)},${i}\n`,
    );
    const text = `code,date,trial,peak force (N),rfd 0-100 (N/s)\n${rows.join('')}`;
    const started = process.cpuUsage();
    expect(resultsOf(text).values.length + resultsOf(text).refused.length).toBeGreaterThan(150_000);
    expect(process.cpuUsage(started).user / 1e6).toBeLessThan(30);
  });
});

describe('telling results from a curve', () => {
  const curve = `time_s,left_n,right_n\n${Array.from({ length: 500 }, (_, i) => `${i / 1000},${400 + i},${398 + i}`).join('\n')}\n`;
  it('leaves a curve a curve, takes a table for a table, and asks in doubt', () => {
    expect(looksLikeResults(bytes(curve), true)).toBe('no');
    expect(looksLikeResults(bytes(wide), false)).toBe('yes');
    expect(looksLikeResults(bytes('Name,Date,PF\nImre,2019-01-01,2400\n'), false)).toBe('yes');
    expect(looksLikeResults(bytes('athlete,date,thing\nImre,2019-01-01,2400\n'), false)).toBe('perhaps');
    expect(looksLikeResults(Uint8Array.of(0x50, 0x4b, 3, 4), false)).toBe('yes');
    expect(looksLikeResults(bytes('hello'), false)).toBe('no');
  });
});

it('knows tests by id, title and the trade’s abbreviation', () => {
  expect(testNamed('Isometric Mid-Thigh Pull')).toBe('imtp');
  expect(testNamed('IMTP')).toBe('imtp');
  expect(testNamed('iso squat')).toBe('isometric-squat');
  expect(testNamed('CMJ')).toBe('');
});
