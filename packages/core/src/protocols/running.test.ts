import { expect, it } from 'vitest';
import { protocolRegistry, runningRules } from './index.ts';

it('has rules for every test that are possible and safe', () => {
  for (const protocol of protocolRegistry.all) {
    const rules = runningRules(protocol);
    expect(rules.test).toBe(protocol.id);
    expect(rules.still.seconds).toBeGreaterThanOrEqual(2);
    expect(rules.rest.minimum).toBe(protocol.restSeconds);
    expect(rules.rest.afterSubmaximal).toBeLessThanOrEqual(rules.rest.minimum);
    expect(rules.rest.maximum).toBeGreaterThan(rules.rest.minimum);
    expect(rules.zero.moved).toBeLessThan(rules.zero.limit);
    expect(rules.ready.above).toBeLessThan(rules.pull.rise);
    const shares = rules.warmUp.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    for (const { share, band } of rules.warmUp) expect(share * (1 + band)).toBeLessThan(1);
    // What is kept before and through the longest pull fits the engine's buffer of 34 s.
    expect(rules.pull.before + protocol.pullSeconds.planned + rules.pull.beyondPlanned).toBeLessThan(33);
  }
});
