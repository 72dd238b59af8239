import { describe, expect, it } from 'vitest';
import { jumpTrial } from '../../test/jumps.ts';
import { judgedJump } from '../../test/uncertain-jumps.ts';
import { seededRandom } from '../simulation/index.ts';
import { foundJumps, jumpMetricRegistry } from './index.ts';
import { quietSearch, quietWindows } from './quiet.ts';
import { remade } from './remade.ts';
import { resumed } from './resumed.ts';

// Work that is shared gives what the same work gives alone, to the last digit: the truth is the plain way beside it.

describe('a search for quiet windows that several ends share', () => {
  it('finds what a search of its own finds, also where somebody stands right up to the end', () => {
    const { forces } = judgedJump(4, { plateNoise: 2 }).request;
    const search = quietSearch(forces, 3600);
    const found = new Set<string>();
    for (let until = 900; until <= 3900; until += 75) {
      const alone = quietWindows(forces, 0, until, 1000);
      expect(search(0, until, 1000), `until ${until}`).toEqual(alone);
      found.add(JSON.stringify(alone));
    }
    // The ends do matter: the search is not asked for one and the same answer.
    expect(found.size).toBeGreaterThan(5);
  });
});

describe('a jump by other rules', () => {
  it.each(['countermovement', 'squat', 'drop', 'repeated'] as const)(
    'is that of a method with these rules: %s',
    (kind) => {
      const { judged, request } = judgedJump(5, { kind });
      const method = request.jumpMethod;
      if (method === undefined) throw new Error('no method');
      for (const rule of ['five-sd-of-flight', 'fixed-10', 'fixed-20', 'fixed-30']) {
        const { jumps } = foundJumps({ ...request, jumpMethod: { ...method, flight: { ...method.flight, rule } } });
        const alone = jumps.ok ? jumps.value[0]?.jump : undefined;
        const shared = judged.under({ ...judged.own, flight: rule });
        expect(shared?.events, rule).toEqual(alone?.events);
        for (const metric of jumpMetricRegistry.all)
          if (shared && alone && metric.kinds.includes(kind))
            expect(metric.compute(shared), `${rule}: ${metric.id}`).toEqual(metric.compute(alone));
      }
    },
  );

  it('by its own rules is the jump itself, unless a person placed its onset', () => {
    const { judged, request } = judgedJump(5);
    expect(judged.under(judged.own)).toBe(judged.jump);
    const index = (jumpTrial(request).jump?.takeOff ?? 0) - 600;
    const { jumps } = foundJumps({ ...request, onsetByHand: { index, by: 'M. Halvard', reason: 'seen' } });
    const placed = jumps.ok ? jumps.value[0] : undefined;
    expect(placed?.under(placed.own)?.onset).toEqual(judged.jump.onset);
  });
});

describe('a jump carried on from where its forces changed', () => {
  it.each(['countermovement', 'squat', 'drop'] as const)('is the jump made anew: %s', (kind) => {
    const { jump } = judgedJump(6, { kind }).judged;
    const total = jump.forces.total.slice();
    const forces = { ...jump.forces, total };
    const from = resumed(jump, forces);
    const random = seededRandom(7, 0);
    const start = jump.motion.ok ? jump.motion.value.start : 0;
    // Forward as pieces go, and once back again.
    for (const at of [start, start + 40, jump.events.takeOff, jump.events.touchdown + 30, start + 10, start + 700]) {
      for (let i = at; i < at + 15; i++) total[i] = (total[i] as number) + random.gaussian();
      const [here, anew] = [from(at), remade(jump, { forces, marks: 'held' })];
      expect(here.motion, `${at}`).toEqual(anew.motion);
      expect(here.events, `${at}`).toEqual(anew.events);
    }
  });
});

// What the propagation of noise relies on when it does not compute such a value again.
describe('a value of a jump from standing whose evidence ends by take-off', () => {
  it.each(['countermovement', 'squat'] as const)('looks at no sample after it: %s', (kind) => {
    const { jump } = judgedJump(8, { kind }).judged;
    const random = seededRandom(9, 0);
    const after = (force: Float64Array) =>
      force.map((value, i) => (i > jump.events.takeOff ? value + 50 * random.gaussian() : value));
    const { total, left, right } = jump.forces;
    const forces = {
      ...jump.forces,
      total: after(total),
      ...(left && right ? { left: after(left), right: after(right) } : {}),
    };
    const other = remade(jump, { forces, marks: 'held' });
    let [same, changed] = [0, 0];
    for (const metric of jumpMetricRegistry.all) {
      if (!metric.kinds.includes(kind)) continue;
      const value = metric.compute(jump);
      if (!('value' in value)) continue;
      const there = metric.compute(other);
      if ((value.evidence.interval?.end ?? Number.POSITIVE_INFINITY) > jump.events.takeOff) {
        if ('value' in there && there.value !== value.value) changed++;
        continue;
      }
      same++;
      expect(there, metric.id).toEqual(value);
    }
    expect(same).toBeGreaterThan(20);
    expect(changed).toBeGreaterThan(3);
  });
});
