import { expect, it } from 'vitest';
import { queryOf } from './use-report.ts';

const asked = (values: Record<string, string>) => queryOf({ values, language: undefined });

it('takes a push-off distance of the address as its field does, and leaves out what is none', () => {
  expect(asked({ pushOff: '41,5' })).toEqual({ pushOff: 41.5 });
  expect(asked({ pushOff: ' 41.5 ' })).toEqual({ pushOff: 41.5 });
  for (const none of ['', '4', '81', 'far']) expect(asked({ pushOff: none })).toEqual({});
});

it('leaves out numbers and words that are none', () => {
  expect(asked({ apart: '3', sessions: '2', on: '2026-03-28', against: 'last' })).toEqual({
    ...{ apart: 3, sessions: 2, on: '2026-03-28', against: 'last' },
  });
  expect(asked({ apart: '3,5', sessions: '1', on: '28.3.', against: 'luck' })).toEqual({});
});
