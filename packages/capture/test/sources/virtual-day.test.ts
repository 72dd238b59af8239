import { describe, expect, it } from 'vitest';
import { type VirtualScript, virtualScripts } from '../../src/sources/virtual/script.ts';
import { VirtualRig } from './rig.ts';

const faulty = virtualScripts['fernwater-three-with-faults'] as VirtualScript;
const refs = ['p-wren', 'p-heron', 'p-otter'];
const planned = 2;

/** What a script lets go wrong in the pulls that were made, by person. */
function scripted(script: VirtualScript, rig: VirtualRig) {
  return refs.map((person, i) => {
    const maximal = rig.closed.filter((trial) => trial.person === person && trial.effort === 'maximal');
    const faults = script.people[i]?.faults ?? [];
    return maximal.map((_, at) => (faults.some(({ attempt }) => attempt === at + 1) ? 'repeat' : 'counts'));
  });
}

const verdicts = (rig: VirtualRig) =>
  refs.map((person) =>
    rig.closed.filter((t) => t.person === person && t.effort === 'maximal').map(({ verdict }) => verdict),
  );

const plans = faulty.people.map(({ weight, strength }) => ({
  lastBodyWeight: weight,
  ownBest: weight + strength,
  maximalTrials: planned,
}));

/** Guided: one effort of whoever is on the plates, from the setup or the rest before it. */
function effort(rig: VirtualRig): void {
  const before = rig.closed.length;
  if (rig.phase === 'verdict') rig.order({ order: 'advance' });
  if (rig.phase === 'rest') {
    const person = rig.closed.at(-1)!.person;
    rig.must('rest over', 70, () => rig.of('rest').findLast((rest) => rest.person === person)?.state === 'over');
    rig.order({ order: 'advance' });
  }
  expect(rig.phase).toBe('set-up');
  rig.order({ order: 'advance' });
  rig.wait(2.5);
  rig.order({ order: 'cue-now' });
  rig.must('a closed trial', 25, () => rig.closed.length > before && rig.phase === 'verdict');
}

async function guidedDay(seed: number): Promise<VirtualRig> {
  const rig = await VirtualRig.open(faulty, seed);
  for (const [i, ref] of refs.entries()) {
    rig.call(ref, plans[i]);
    rig.must('weighed', 15, () => rig.phase === 'set-up');
    // Two submaximal efforts first.
    for (let k = 0; k < 2; k++) effort(rig);
  }
  for (let round = 0; round < 5; round++) {
    for (const [i, ref] of refs.entries()) {
      if (!rig.anotherFor(ref)) continue;
      rig.call(ref, plans[i]);
      rig.must('weighed', 15, () => rig.phase === 'set-up' || rig.phase === 'rest');
      effort(rig);
    }
  }
  rig.order({ order: 'end-turn' });
  rig.wait(3);
  await rig.plates.stop();
  return rig;
}

async function handsFreeDay(seed: number): Promise<VirtualRig> {
  const rig = await VirtualRig.open(faulty, seed, { mode: 'hands-free' });
  for (const [i, ref] of refs.entries()) {
    const ended = rig.of('turn-ended').length;
    rig.call(ref, plans[i]);
    rig.order({ order: 'arm' });
    rig.must('turn ended', 400, () => rig.of('turn-ended').length > ended);
    rig.wait(2);
  }
  await rig.plates.stop();
  return rig;
}

describe('a guided day of three on virtual plates', () => {
  it('has the trials of its script, and nothing else', async () => {
    const rig = await guidedDay(4);
    expect(rig.of('refused')).toEqual([]);
    // Nothing but the end of the stream.
    expect(rig.of('alert').map(({ words }) => words)).toEqual(['The stream has ended.']);
    expect(rig.of('question')).toEqual([]);
    expect(rig.of('effort-dismissed')).toEqual([]);
    expect(verdicts(rig)).toEqual(scripted(faulty, rig));
    expect(verdicts(rig)).toEqual([
      ['counts', 'repeat', 'counts'],
      ['repeat', 'counts', 'counts'],
      ['repeat', 'counts', 'counts'],
    ]);
    const submaximal = rig.closed.filter((trial) => trial.effort === 'submaximal');
    expect(submaximal.map(({ person, target, closeness }) => [person, target?.share, closeness?.where])).toEqual(
      refs.flatMap((ref) => [
        [ref, 0.5, 'inside'],
        [ref, 0.75, 'inside'],
      ]),
    );
    expect(rig.closed.every(({ ended }) => ended === 'released')).toBe(true);
  }, 60_000);
});

describe('a hands-free day of three on virtual plates', () => {
  it('runs by itself once armed, and weighs and measures who stood there', async () => {
    const rig = await handsFreeDay(4);
    expect(rig.of('turn-ended').map(({ person, because }) => [person, because])).toEqual(
      refs.map((ref) => [ref, 'complete']),
    );
    // Nothing but the end of the stream.
    expect(rig.of('alert').map(({ words }) => words)).toEqual(['The stream has ended.']);
    expect(verdicts(rig)).toEqual(scripted(faulty, rig));
    expect(
      verdicts(rig)
        .flat()
        .filter((verdict) => verdict === 'repeat'),
    ).toHaveLength(3);
    const weights = rig.of('weighing').map(({ weighing }) => weighing.bodyWeight);
    expect(weights).toHaveLength(3);
    for (const [i, weight] of weights.entries()) expect(Math.abs(weight - faulty.people[i]!.weight)).toBeLessThan(2);
    // Everybody pulled 0.2 to 0.4 s after a cue that really sounded.
    expect(rig.closed.every(({ cue }) => cue !== undefined)).toBe(true);
    const end = rig.sent('end');
    expect(end).toMatchObject([{ samples: rig.plates.position, gaps: 0, missing: 0 }]);
  }, 60_000);

  it('is the same day for the same seed, and another for another', async () => {
    const [a, b, c] = [await handsFreeDay(9), await handsFreeDay(9), await handsFreeDay(10)];
    expect(b.outputs).toEqual(a.outputs);
    expect(b.packets.length).toBe(a.packets.length);
    const was = a.sent('samples');
    const sames = b.sent('samples').map(({ values }, i) => sameValues(values, was[i]!.values));
    expect(sames.includes(false)).toBe(false);
    expect(c.closed.map(({ result }) => result)).not.toEqual(a.closed.map(({ result }) => result));
    expect(verdicts(c)).toEqual(scripted(faulty, c));
  }, 120_000);
});

const sameValues = (a: Float64Array, b: Float64Array): boolean =>
  a.length === b.length && a.every((v, i) => v === b[i]);
