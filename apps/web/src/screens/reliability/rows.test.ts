import type { ReliabilityFound, ReliabilityView } from '@sthene/contract';
import { reliabilityStudy } from '@sthene/core/stats';
import { describe, expect, it } from 'vitest';
import { asTable, studyRows } from './rows.ts';

// Weir 2005, J Strength Cond Res 19:231-240, set A.
const table = [
  [146, 140],
  [148, 152],
  [170, 152],
  [90, 99],
  [157, 145],
  [156, 153],
  [176, 167],
  [205, 218],
];

function rowsOf(scale: 'log' | 'unit') {
  const study = reliabilityStudy(table, scale);
  if (!study.ok) throw new Error(study.reason);
  return studyRows(
    JSON.parse(JSON.stringify(study.value)) as ReliabilityFound,
    { scale, metric: { unit: 'N' } } as unknown as ReliabilityView,
  );
}

describe('the table of a study', () => {
  it('writes errors in the unit, or in per cent up and down', () => {
    const unit = rowsOf('unit');
    expect(unit[0]).toMatchObject({
      what: 'Typical error',
      value: '7.6\u00a0N',
      interval: '5.0\u00a0N to 15.4\u00a0N',
    });
    expect(unit[1]?.value).toBe('20.9\u00a0N');
    expect(unit.find(({ what }) => what === 'ICC(2,1)')).toMatchObject({ value: '0.950', interval: '0.787 to 0.990' });
    expect(unit.find(({ what }) => what === 'ICC(2,1)')?.says).toContain('good to excellent');
    const logs = rowsOf('log');
    expect(logs[0]?.value).toBe('5.2\u00a0%');
    expect(logs[1]?.value).toBe('+15.0\u00a0%, \u221213.0\u00a0%');
  });

  it('pastes as lines of cells', () => {
    const lines = asTable(rowsOf('unit'), 'Peak force').split('\n');
    expect(lines[0]).toBe('Peak force');
    expect(lines.slice(1).every((line) => line.split('\t').length === 4)).toBe(true);
    expect(lines).toHaveLength(2 + 10);
  });
});
