import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { units } from './table.ts';
import { convert, convertible, parseUnit, unitOf } from './units.ts';

describe('units', () => {
  // Exact by definition: standard gravity 9.80665 m/s2 (3rd CGPM 1901), international pound 0.45359237 kg (1959).
  it.each([
    [1, 'kN', 'N', 1000],
    [1, 'kgf', 'N', 9.80665],
    [1, '[lbf_av]', 'N', 4.4482216152605],
    [2500, 'mN', 'N', 2.5],
    [1, 'N.m', 'N.mm', 1000],
    [90, 's', 'min', 1.5],
    [180, 'deg', 'rad', Math.PI],
    [12, '%', '1', 0.12],
    [3, 'uV', 'mV', 0.003],
  ])('%d %s in %s', (value, from, to, want) => {
    expect(convert(value, from, to)).toBeCloseTo(want, 12);
  });

  it.each([
    ['N', 'N'],
    ['[N]', 'N'],
    ['(N)', 'N'],
    [' newtons ', 'N'],
    ['Newton', 'N'],
    ['n', 'N'],
    ['kN', 'kN'],
    ['KN', 'kN'],
    ['mN', 'mN'],
    ['lbs', '[lbf_av]'],
    ['LBF', '[lbf_av]'],
    ['[lbf_av]', '[lbf_av]'],
    ['kp', 'kgf'],
    ['Kilogram-force', 'kgf'],
    ['Nm', 'N.m'],
    ['N·m', 'N.m'],
    ['Nmm', 'N.mm'],
    ['N.mm', 'N.mm'],
    ['V', 'V'],
    ['volts', 'V'],
    ['µV', 'uV'],
    ['msec', 'ms'],
    ['Hz', 'Hz'],
    ['%', '%'],
    ['kg', 'kg'],
  ])('reads %j as %s', (text, code) => {
    expect(parseUnit(text)?.code).toBe(code);
  });

  it('knows what it does not know', () => {
    for (const text of ['', '  ', '[]', 'furlong', 'MN', 'MV', 'N/A', 'body weights']) {
      expect(parseUnit(text)).toBeUndefined();
    }
    expect(unitOf('lbf')).toBeUndefined();
    expect(() => convert(1, 'N', 'kg')).toThrow(RangeError);
    expect(() => convert(1, 'lbf', 'N')).toThrow(RangeError);
    expect(convertible('N', 'kgf')).toBe(true);
    expect(convertible('N', 'N.m')).toBe(false);
    expect(convertible('N', 'x')).toBe(false);
  });

  it('goes there and back', () => {
    const code = fc.constantFrom(...units.map((unit) => unit.code));
    fc.assert(
      fc.property(code, code, fc.integer({ min: -1e9, max: 1e9 }), (from, to, value) => {
        fc.pre(convertible(from, to));
        expect(Math.abs(convert(convert(value, from, to), to, from) - value)).toBeLessThanOrEqual(
          1e-12 * Math.abs(value),
        );
      }),
    );
  });

  it('reads every code and every spelling it lists', () => {
    for (const unit of units) {
      expect(parseUnit(unit.code)).toBe(unit);
      for (const spelling of unit.spellings) expect(parseUnit(spelling)).toBe(unit);
    }
  });
});
