import { type MixedData, type MixedModel, mixedModel } from '@sthene/core/stats';
import { describe, expect, it } from 'vitest';
import { near, type RModel, r } from './r.ts';

/** Data sets that come with lme4, and one of them with sixteen values taken out. */
const cases: readonly { readonly name: string; readonly set: string; readonly random: MixedData['random']['kind'] }[] =
  [
    { name: 'Dyestuff', set: 'Dyestuff', random: 'person' },
    { name: 'Dyestuff2', set: 'Dyestuff2', random: 'person' },
    { name: 'sleepstudyLevel', set: 'sleepstudy', random: 'person' },
    { name: 'sleepstudy', set: 'sleepstudy', random: 'person-and-slope' },
    { name: 'oddLevel', set: 'odd', random: 'person' },
    { name: 'odd', set: 'odd', random: 'person-and-slope' },
    { name: 'Pastes', set: 'Pastes', random: 'person-and-session' },
  ];

function fit({ name, set, random }: (typeof cases)[number]): MixedModel {
  const { y, person, time, session } = r.sets[set] as (typeof r.sets)[string];
  const fixed = time === undefined ? {} : { fixed: [{ name: 'time', values: time }] };
  const terms = {
    person: { kind: random },
    'person-and-slope': { kind: random, time },
    'person-and-session': { kind: random, session },
  };
  const fitted = mixedModel({ y, person, ...fixed, random: terms[random] as MixedData['random'] });
  if (!fitted.ok) throw new Error(`${name}: ${fitted.reason}`);
  return fitted.value;
}

const component = (model: RModel, group: string, first: string | null, second: string | null = null) =>
  model.components.find((one) => one.group === group && one.first === first && one.second === second);

describe('mixed models against lme4', () => {
  for (const one of cases) {
    const theirs = r.models[one.name] as RModel;
    const ours = fit(one);

    it(`${one.name}: criterion, residual and fixed effects`, () => {
      // lme4 stops where its optimiser does; ours is allowed to be lower, not higher.
      expect(ours.criterion).toBeLessThan(theirs.criterion + 1e-6);
      expect(near(ours.criterion, theirs.criterion, 1e-7)).toBe(true);
      expect(near(ours.residual.value, theirs.sigma, 2e-5)).toBe(true);
      expect(ours.singular).toBe(theirs.singular);
      for (const [j, wanted] of theirs.fixed.entries()) {
        const got = ours.fixed[j] as (typeof ours.fixed)[number];
        expect(near(got.estimate.value, wanted.value, 1e-6)).toBe(true);
        expect(near(got.standardError, wanted.error, 1e-4)).toBe(true);
        expect(near(got.t, wanted.t, 1e-4)).toBe(true);
        expect(near(got.df, wanted.df, 2e-3), `df ${got.df} ${wanted.df}`).toBe(true);
        expect(near(got.p, wanted.p, 5e-2)).toBe(true);
      }
    });

    it(`${one.name}: variances and each person's deviation`, () => {
      const group = theirs.components[0]?.group as string;
      const people = one.random === 'person-and-session' ? 'batch' : group;
      const level = component(theirs, people, '(Intercept)')?.variance as number;
      expect(near(ours.level, level, 2e-4, ours.residual.value ** 2)).toBe(true);
      if (one.random === 'person-and-slope') {
        expect(near(ours.slope as number, component(theirs, group, 'Days')?.variance as number, 3e-4)).toBe(true);
        const wanted = component(theirs, group, '(Intercept)', 'Days')?.sd as number;
        expect(Math.abs((ours.correlation as number) - wanted)).toBeLessThan(5e-4);
      }
      if (one.random === 'person-and-session')
        expect(near(ours.session as number, component(theirs, 'sample', '(Intercept)')?.variance as number, 1e-4)).toBe(
          true,
        );
      const width = Math.sqrt(ours.level) || ours.residual.value;
      for (const [person, wanted] of Object.entries(theirs.effects)) {
        const got = ours.effects.get(person) as readonly number[];
        for (const [i, value] of (typeof wanted === 'number' ? [wanted] : wanted).entries())
          expect(Math.abs((got[i] as number) - value), person).toBeLessThan(1e-3 * width);
      }
    });
  }

  it('says what it cannot fit', () => {
    const person = ['a', 'a', 'b', 'b', 'c', 'c'];
    const y = [1, 2, 3, 4, 5, 7];
    const random = { kind: 'person' } as const;
    expect(mixedModel({ y: [], person: [], random })).toEqual({ ok: false, reason: 'too-few-values' });
    expect(mixedModel({ y, person: y.map(String), random })).toEqual({ ok: false, reason: 'too-few-values' });
    expect(mixedModel({ y, person: y.map(() => 'a'), random })).toEqual({ ok: false, reason: 'too-few-values' });
    const twice = { name: 'again', values: y.map(() => 2) };
    expect(mixedModel({ y, person, fixed: [twice], random })).toEqual({ ok: false, reason: 'no-fit' });
    expect(mixedModel({ y: y.map(() => 3), person, random })).toEqual({ ok: false, reason: 'no-fit' });
  });
});
