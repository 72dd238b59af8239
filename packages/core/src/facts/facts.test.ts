import { describe, expect, it } from 'vitest';
import { checkRegistry } from '../checks/index.ts';
import { jumpMetricRegistry } from '../jumps/index.ts';
import { metricRegistry } from '../metrics/index.ts';
import { protocolRegistry } from '../protocols/index.ts';
import { unitOf } from '../units/index.ts';
import { checkFacts, checkFactsOf, headlineMetric, metricFacts, metricFactsOf } from './facts.ts';

describe('facts of metrics and checks', () => {
  it('are of every one, isometric first, each id and each title once', () => {
    expect(metricFacts.all.slice(0, metricRegistry.all.length)).toEqual(metricRegistry.all);
    expect(checkFacts.all.slice(0, checkRegistry.all.length)).toEqual(checkRegistry.all);
    for (const all of [metricFacts.all, checkFacts.all])
      expect(new Set(all.map(({ title }) => title)).size).toBe(all.length);
    expect(metricFacts.get('jump_height')).toMatchObject({ unit: 'm', better: 'higher' });
  });

  it('have units this program knows, ids in snake case and sentences that end', () => {
    for (const { id, unit, formula, source } of jumpMetricRegistry.all) {
      expect(unitOf(unit), `${id} in ${unit}`).toBeDefined();
      expect(id).toMatch(/^[a-z]+(_[a-z\d]+)*$/u);
      expect(formula.length).toBeGreaterThan(5);
      expect(source.length).toBeGreaterThan(5);
    }
    for (const { definition, why, title, finding } of checkFacts.all) {
      expect(definition).toMatch(/\.$/u);
      expect(why).toMatch(/\.$/u);
      expect(title).not.toBe(finding);
    }
  });

  it('are those of the test, and the headline is one of them', () => {
    expect(metricFactsOf('imtp')).toBe(metricRegistry.all);
    expect(checkFactsOf('imtp')).toBe(checkRegistry.all);
    for (const { id } of protocolRegistry.all) {
      const own = metricFactsOf(id).map((one) => one.id);
      expect(own).toContain(headlineMetric(id));
    }
    expect(metricFactsOf('squat-jump').map(({ id }) => id)).not.toContain('braking_rfd');
    expect(metricFactsOf('drop-jump').map(({ id }) => id)).toContain('contact_time');
    expect(metricFactsOf('repeated-hops').map(({ id }) => id)).not.toContain('jump_height');
    expect(headlineMetric('countermovement-jump-loaded')).toBe('jump_height');
  });
});
