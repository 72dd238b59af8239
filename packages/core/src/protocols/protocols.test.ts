import { describe, expect, it } from 'vitest';
import { unitOf } from '../units/index.ts';
import { protocolRegistry } from './index.ts';

describe('tests on offer', () => {
  it('are these, in this order', () => {
    expect(protocolRegistry.all.map(({ id }) => id)).toEqual([
      'imtp',
      'imtp-explosive',
      'isometric-squat',
      'imtp-left',
      'imtp-right',
      'isometric-squat-left',
      'isometric-squat-right',
      'isometric-effort',
      ...['hip-adduction', 'hip-abduction', 'hamstring', 'calf', 'upper-body-pull', 'upper-body-push'].flatMap((id) => [
        `${id}-left`,
        `${id}-right`,
      ]),
      'countermovement-jump',
      'squat-jump',
      'drop-jump',
      'repeated-hops',
      'countermovement-jump-loaded',
      'squat-jump-loaded',
      'countermovement-jump-left',
      'countermovement-jump-right',
    ]);
  });

  it('share no pool, for their results are never averaged together', () => {
    const pools = protocolRegistry.all.map(({ pool }) => pool);
    expect(new Set(pools).size).toBe(pools.length);
  });

  it('have limits and counts that fit together', () => {
    for (const { pullSeconds, maximalTrials, restSeconds, limbs, id } of protocolRegistry.all) {
      expect(pullSeconds.failUnder).toBeLessThan(pullSeconds.warnUnder);
      expect(pullSeconds.warnUnder).toBeLessThan(pullSeconds.planned);
      expect(maximalTrials.minimum).toBeLessThanOrEqual(maximalTrials.planned);
      expect(maximalTrials.planned).toBeLessThanOrEqual(maximalTrials.maximum);
      expect(restSeconds).toBeGreaterThanOrEqual(60);
      if (/-(left|right)$/u.test(id)) expect(id.endsWith(limbs)).toBe(true);
    }
  });

  it('have setup fields with ids of their own, known units and choices where there are choices', () => {
    for (const { setupFields } of protocolRegistry.all) {
      expect(new Set(setupFields.map(({ id }) => id)).size).toBe(setupFields.length);
      for (const { kind, choices, unit } of setupFields) {
        expect(kind === 'choice').toBe(choices !== undefined);
        if (unit !== undefined) expect(unitOf(unit)).toBeDefined();
      }
    }
  });

  it('put local rules and professionals first, and say when to stop', () => {
    for (const { cautions, sources } of protocolRegistry.all) {
      expect(cautions[0]).toContain('Local rules and the judgement of licensed professionals come first');
      expect(cautions.join(' ')).toMatch(/Stop at once on pain/u);
      expect(cautions.join(' ')).toMatch(/medical clearance/u);
      expect(cautions.join(' ')).toMatch(/consent/u);
      expect(sources.length).toBeGreaterThan(0);
    }
  });
});
