import { type CheckResult, checkRegistry, jumpCheckRegistry } from '@sthene/core';
import { expect, it } from 'vitest';
import { allCorrections, corrections, jumpCorrections, jumpWords, sayings } from '../../src/engine/index.ts';
import { correctionFor } from '../../src/engine/sayings/corrections.ts';

const words = (sentence: string): number => sentence.split(/\s+/u).length;

it('has one sentence for every check and for no other', () => {
  expect(Object.keys(corrections).sort()).toEqual(checkRegistry.all.map(({ id }) => id).sort());
});

it('has one sentence for every check on a jump and for no other', () => {
  expect(Object.keys(jumpCorrections).sort()).toEqual(jumpCheckRegistry.all.map(({ id }) => id).sort());
});

it('says at most six words to an athlete', () => {
  const said = [
    ...allCorrections,
    ...Object.values(sayings).flatMap(({ to, words }) => (to === 'athlete' ? [words] : [])),
    ...Object.values(jumpWords),
  ];
  for (const sentence of said) expect(words(sentence), sentence).toBeLessThanOrEqual(6);
});

it('speaks of the outside, not of parts of the body', () => {
  const body = /\b(leg|legs|knee|knees|hip|hips|back|foot|feet|heel|arm|arms|shoulder|muscle|chest)s?\b/iu;
  for (const sentence of allCorrections) expect(body.test(sentence), sentence).toBe(false);
});

const check = (status: CheckResult['status']): CheckResult => ({ status, unit: 'N' });

it('says one thing, the worst first', () => {
  const say = (checks: Record<string, CheckResult>) => correctionFor('repeat', checks, undefined, [], undefined).for;
  expect(say({ peak_at_end: check('fail'), countermovement: check('warn') })).toBe('peak_at_end');
  expect(say({ quiet_baseline: check('fail'), countermovement: check('fail') })).toBe('countermovement');
  expect(say({ spike: check('warn'), pretension: check('pass') })).toBe('spike');
  expect(correctionFor('counts', { spike: check('pass') }, undefined, [], undefined).for).toBe('counts');
  expect(correctionFor('repeat', { spike: check('warn') }, undefined, ['gap-in-pull'], undefined).for).toBe(
    'gap-in-pull',
  );
  expect(correctionFor('repeat', {}, 'no-effort', [], undefined).for).toBe('no-effort');
  const close = { reached: 900, deviation: -20, where: 'under' } as const;
  expect(correctionFor('counts', { spike: check('warn') }, undefined, [], close).words).toBe(
    'A little harder next time',
  );
});
