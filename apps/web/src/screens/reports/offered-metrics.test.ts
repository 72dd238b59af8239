import { headlineMetric, protocolRegistry } from '@sthene/core';
import { expect, it } from 'vitest';
import { offeredMetrics } from './offered-metrics.ts';

const ids = (...asked: Parameters<typeof offeredMetrics>) => offeredMetrics(...asked).map(({ id }) => id);

it('offers the headline of every test, so that what stands in the field can be chosen', () => {
  for (const { id } of protocolRegistry.all)
    for (const kind of ['methods', 'athlete', 'squad', 'reliability'] as const)
      expect(ids(kind, id)).toContain(headlineMetric(id));
});

it('offers values of a jump, and the ratios a test has a part in', () => {
  expect(ids('methods', 'countermovement-jump')).toEqual(
    expect.arrayContaining(['jump_height', 'dynamic_strength_index', 'eccentric_utilisation_ratio']),
  );
  expect(ids('methods', 'countermovement-jump')).not.toContain('peak_force');
  expect(ids('athlete', 'imtp')).toContain('dynamic_strength_index');
  expect(ids('athlete', 'imtp')).not.toContain('eccentric_utilisation_ratio');
  expect(ids('athlete', 'isometric-squat')).not.toContain('dynamic_strength_index');
});

it('offers no ratio where single efforts are studied', () => {
  expect(ids('reliability', 'imtp')).not.toContain('dynamic_strength_index');
});
