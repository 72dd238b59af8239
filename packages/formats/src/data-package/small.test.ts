import { describe, expect, it } from 'vitest';
import { csvField, csvNumber, csvRecord, numberOfField, parseCsv } from './csv.ts';
import { unsafePath } from './paths.ts';
import { hideSmallCells } from './small-cells.ts';
import { isUcum } from './ucum.ts';

// EX-02 to EX-04: methods/jumps-and-plates.md section 9.7.
describe('small rules of the export', () => {
  it('EX-02 quotes a field', () => {
    expect(csvRecord(['He said "go", twice'])).toBe('"He said ""go"", twice"\r\n');
    expect(csvField('plain')).toBe('plain');
  });

  it('reads its own records back', () => {
    const records = [
      ['a', 'b,c', 'd"e', 'f\r\ng', ''],
      ['', '', '', '', ' x '],
    ];
    expect(parseCsv(records.map(csvRecord).join(''))).toEqual(records);
    expect(parseCsv('a,b\n1,')).toEqual([
      ['a', 'b'],
      ['1', ''],
    ]);
    expect(parseCsv('"never closed')).toBeNull();
    expect(parseCsv('')).toEqual([]);
  });

  it('brings every kind of number through a field', () => {
    for (const value of [0.1, -0, 1e-320, Number.MAX_VALUE, Number.NaN, Infinity, -Infinity, 123456789.12345679]) {
      expect(Object.is(numberOfField(csvNumber(value)), value)).toBe(true);
    }
    for (const field of ['x', '1,5', '0x10', '1e', '.', '-', ' 1']) expect(numberOfField(field)).toBeUndefined();
  });

  it('EX-03 hides small cells and the next one', () => {
    expect(hideSmallCells([12, 3, 9])).toEqual([12, null, null]);
    expect(hideSmallCells([12, 3, 4])).toEqual([12, null, null]);
    expect(hideSmallCells([12, 8, 9])).toEqual([12, 8, 9]);
    expect(hideSmallCells([3])).toEqual([null]);
    expect(hideSmallCells([9, 9, 12], 10)).toEqual([null, null, 12]);
  });

  it('EX-04 knows UCUM codes', () => {
    const good = [
      'N',
      'N/kg',
      'N/s',
      'N.s',
      'W',
      'W/kg',
      'ms',
      '%',
      'm/s',
      'N.mm',
      'N.m',
      'm/s2',
      'rad/s',
      '1',
      'kN',
      'uV',
      'cm',
      'Cel',
      '/s',
      'W.s/kg2',
    ];
    const bad = ['Ns', 'N·s', 'sec', '', 'n', 'N kg', 'N//kg', 'N/', 'kkg', 'Newton', 'N s'];
    expect(good.filter((code) => !isUcum(code))).toEqual([]);
    expect(bad.filter(isUcum)).toEqual([]);
  });

  it('knows paths that leave the package', () => {
    for (const path of ['../a', 'a/../b', '/a', 'C:/a', 'a\\b', 'a//b', './a', '', 'a\0b'])
      expect(unsafePath(path)).not.toBeNull();
    expect(unsafePath('recordings/pull-1.csv')).toBeNull();
    expect(unsafePath('a..b/c')).toBeNull();
  });
});
