import { expect, it } from 'vitest';
import { columnsOf, guessOf } from './table-guess.ts';

it('reads the headings by the sign that parts them', () => {
  expect(columnsOf('athlete\tday\tpeak force\n1\t2\t3')).toEqual(['athlete', 'day', 'peak force']);
  expect(columnsOf('\uFEFFathlete;"peak, best";x\r\n')).toEqual(['athlete', 'peak, best', 'x']);
  expect(columnsOf('')).toEqual([]);
});

it('takes headings for metrics by id or title, with the unit in brackets, and for what names the trial', () => {
  const guess = guessOf(['Athlete', 'date', 'trial no', 'peak_force', 'Force at 100 ms (kN)', 'mood']);
  expect(guess.way).toBe('person');
  expect(guess.columns).toEqual({ person: 'Athlete', date: 'date', order: 'trial no' });
  expect(guess.values).toEqual({
    peak_force: { metric: 'peak_force', unit: '' },
    'Force at 100 ms (kN)': { metric: 'force_at_100', unit: 'kN' },
    mood: { metric: '', unit: '' },
  });
  expect(guessOf(['file', 'peak force']).way).toBe('file');
});
