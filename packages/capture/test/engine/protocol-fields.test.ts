import {
  applyProtocol,
  defaultMethod,
  methodOfProtocol,
  type ProtocolDocument,
  type PullSpec,
  protocolFields,
  usualProtocol,
  validateProtocol,
} from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { TurnPlan } from '../../src/engine/index.ts';
import { aimed, begin } from './acts.ts';
import { athlete, Stage } from './stage.ts';

const wren = athlete('p-wren');
const usual = usualProtocol('imtp');
/** Short rests, so that a session fits into a test. */
const base: ProtocolDocument = {
  ...usual,
  warmUp: { ...usual.warmUp, rest: 5 },
  rest: { minimum: 15, maximum: 600 },
};

const good: PullSpec = {};
const short: PullSpec = { fault: 'early-end', severity: { hold_s: 0.7 } };
const held = (hold: number): PullSpec => ({ hold });
const weaker = (newtons: number): PullSpec => ({ netForce: wren.netForce - newtons });

interface Session {
  /** What the athlete does at each cue; `aimed`: as hard as the target asks. */
  readonly pulls: readonly (PullSpec | 'aimed')[];
  readonly plan?: Partial<TurnPlan>;
  readonly cold?: boolean;
  /** Seconds on the plates after the last pull. */
  readonly after?: number;
}

/** A hands-free session of one virtual athlete by a protocol. */
function run(document: ProtocolDocument, { pulls, plan = {}, cold = false, after = 6 }: Session): Stage {
  const { test, running } = applyProtocol(document);
  const method = methodOfProtocol(defaultMethod, document);
  const stage = new Stage({ protocol: test, running, method, mode: 'hands-free' });
  stage.wait(1.5);
  begin(stage, wren, { warmUpDone: cold ? 0 : document.warmUp.efforts.length, ...plan });
  stage.order({ order: 'arm' });
  for (const [i, pull] of pulls.entries()) {
    if (!stage.until('cue-request', 40)) break;
    stage.sound();
    stage.pull(pull === 'aimed' ? aimed(stage) : pull, 3 + i);
  }
  stage.wait(after);
  return stage;
}

const weight = (stage: Stage) => stage.of('weighing').at(-1)!.weighing.bodyWeight;
const target = (stage: Stage) => stage.of('phase').find(({ effort }) => effort?.target)?.effort?.target;
const seconds = (stage: Stage, from: number, to: number) => (to - from) / stage.rate;
const check = (stage: Stage, id: string) => stage.closed[0]?.result.checks[id]?.status;
const restOver = (stage: Stage) => {
  const over = stage.of('rest').find(({ state }) => state === 'over');
  return over && Math.round(seconds(stage, over.since, over.sample));
};
/** From the setup being confirmed to the first count, the second of steadiness taken off. */
const beforeCount = (stage: Stage) => {
  const ready = stage.of('phase').find(({ phase }) => phase === 'ready');
  return Math.round(seconds(stage, ready!.sample, stage.of('count')[0]!.sample) - 1);
};
const beforeStop = (stage: Stage) => {
  const pull = stage.of('mark').find(({ label }) => label === 'pull began');
  const stop = stage.of('guidance').find(({ code }) => code === 'stop');
  return stop && Math.round(10 * seconds(stage, pull!.at, stop.sample)) / 10;
};

interface Row {
  /** Path, or paths, that are changed. */
  readonly at: string;
  readonly change: (document: ProtocolDocument) => ProtocolDocument;
  readonly session: Session;
  readonly see: (stage: Stage) => unknown;
  readonly usual: unknown;
  readonly changed: unknown;
}

const effort = (of: ProtocolDocument, change: object): ProtocolDocument => ({
  ...of,
  warmUp: { ...of.warmUp, efforts: of.warmUp.efforts.map((one, i) => (i === 0 ? { ...one, ...change } : one)) },
});
const part = <K extends keyof ProtocolDocument>(name: K, change: Partial<ProtocolDocument[K]>) => {
  return (of: ProtocolDocument): ProtocolDocument => ({ ...of, [name]: { ...(of[name] as object), ...change } });
};
const share = (stage: Stage) => {
  const { aim } = target(stage)!;
  return (aim - weight(stage)) / (720 + 1400 - weight(stage));
};
const close = (value: number) => expect.closeTo(value, 2);

const rows: readonly Row[] = [
  {
    at: 'warmUp.efforts.*.share',
    change: (of) => effort(of, { share: 0.4 }),
    session: { pulls: [], cold: true },
    see: share,
    usual: close(0.5),
    changed: close(0.4),
  },
  {
    at: 'warmUp.efforts.*.band',
    change: (of) => effort(of, { band: 0.3 }),
    session: { pulls: [], cold: true },
    see: (stage) => (target(stage)!.high - target(stage)!.aim) / (target(stage)!.aim - weight(stage)),
    usual: close(0.15),
    changed: close(0.3),
  },
  {
    at: 'warmUp.efforts.*.weightShare',
    change: (of) => effort(of, { weightShare: 2 }),
    session: { pulls: [], cold: true, plan: { ownBest: undefined as never } },
    see: (stage) => (target(stage)!.aim - weight(stage)) / weight(stage),
    usual: close(0.75),
    changed: close(1),
  },
  {
    at: 'warmUp.efforts',
    change: part('warmUp', { efforts: [] }),
    session: { pulls: [good], cold: true },
    see: (stage) => stage.of('phase').find(({ phase }) => phase === 'set-up')?.effort?.kind,
    usual: 'submaximal',
    changed: 'maximal',
  },
  {
    at: 'warmUp.rest',
    change: part('warmUp', { rest: 12 }),
    session: { pulls: ['aimed'], cold: true, after: 14 },
    see: restOver,
    usual: 5,
    changed: 12,
  },
  {
    at: 'maximal.minimum',
    change: part('maximal', { minimum: 2, planned: 2, maximum: 2 }),
    session: { pulls: [good, short] },
    // The base of this row closes after two as well, and asks for one that counts.
    see: (stage) => stage.said('too-few-count'),
    usual: false,
    changed: true,
  },
  {
    at: 'maximal.planned',
    change: part('maximal', { planned: 2 }),
    session: { pulls: [good, good, good] },
    see: (stage) => stage.closed.length,
    usual: 3,
    changed: 2,
  },
  {
    at: 'maximal.maximum',
    change: part('maximal', { minimum: 1, planned: 2, maximum: 2 }),
    session: { pulls: [short, short, short] },
    see: (stage) => [stage.closed.length, stage.said('set-closed')],
    usual: [3, false],
    changed: [2, true],
  },
  {
    at: 'rest.minimum',
    change: part('rest', { minimum: 20 }),
    session: { pulls: [good], after: 22 },
    see: restOver,
    usual: 15,
    changed: 20,
  },
  {
    at: 'rest.maximum',
    change: part('rest', { maximum: 60 }),
    session: { pulls: [good], after: 80 },
    see: (stage) => stage.of('rest').some(({ state }) => state === 'too-long'),
    usual: false,
    changed: true,
  },
  {
    at: 'cue.words',
    change: part('cue', { words: 'Drive.' }),
    session: { pulls: [good] },
    see: (stage) => stage.of('cue-request')[0]?.words,
    usual: usual.cue.words,
    changed: 'Drive.',
  },
  {
    at: 'cue.count',
    change: part('cue', { count: 2 }),
    session: { pulls: [good] },
    see: (stage) => stage.of('count').map(({ number }) => number),
    usual: [3, 2, 1],
    changed: [2, 1],
  },
  {
    at: 'cue.delay',
    change: part('cue', { delay: 3 }),
    session: { pulls: [good] },
    see: beforeCount,
    usual: 1,
    changed: 3,
  },
  {
    at: 'pull.seconds',
    change: part('pull', { seconds: 3 }),
    session: { pulls: [held(6.5)] },
    see: beforeStop,
    usual: expect.closeTo(5, 1),
    changed: expect.closeTo(3, 1),
  },
  {
    at: 'pull.warnUnder',
    change: part('pull', { warnUnder: 4 }),
    session: { pulls: [held(3)] },
    see: (stage) => check(stage, 'sustained_effort'),
    usual: 'pass',
    changed: 'warn',
  },
  {
    at: 'pull.failUnder',
    change: part('pull', { failUnder: 4, warnUnder: 4 }),
    session: { pulls: [held(3)] },
    see: (stage) => check(stage, 'sustained_effort'),
    usual: 'pass',
    changed: 'fail',
  },
  {
    at: 'extraTrial.difference',
    change: part('extraTrial', { difference: 100 }),
    session: { pulls: [good, weaker(180)], plan: { maximalTrials: 2 } },
    see: (stage) => stage.said('another-trial'),
    usual: false,
    changed: true,
  },
  {
    at: 'extraTrial.share',
    change: part('extraTrial', { share: 0.05 }),
    session: { pulls: [good, weaker(180)], plan: { maximalTrials: 2 } },
    see: (stage) => stage.said('another-trial'),
    usual: false,
    changed: true,
  },
  {
    at: 'extraTrial.minorShare',
    change: part('extraTrial', { minorShare: 0.05 }),
    session: { pulls: [good, weaker(180)], plan: { maximalTrials: 2, minor: true } },
    see: (stage) => stage.said('another-trial'),
    usual: false,
    changed: true,
  },
  {
    at: 'stop.rejectedInARow',
    change: part('stop', { rejectedInARow: 1 }),
    session: { pulls: [short] },
    see: (stage) => stage.said('consider-stopping'),
    usual: false,
    changed: true,
  },
  {
    at: 'stop.fall',
    change: part('stop', { fall: 0.2 }),
    session: { pulls: [good, weaker(600)] },
    see: (stage) => stage.said('peak-has-fallen'),
    usual: false,
    changed: true,
  },
  {
    at: 'stop.act',
    change: part('stop', { rejectedInARow: 1, act: 'close' }),
    session: { pulls: [short, good] },
    see: (stage) => [stage.closed.length, stage.said('efforts-ended'), stage.of('set').at(-1)?.another],
    usual: [2, false, true],
    changed: [1, true, false],
  },
  {
    at: 'checks.use',
    change: (of) => ({ ...of, checks: { countermovement: { use: false } } }),
    session: { pulls: [{ fault: 'dip', severity: { depth_n: 70 } }] },
    see: (stage) => check(stage, 'countermovement'),
    usual: 'fail',
    changed: undefined,
  },
  {
    at: 'checks.limits',
    change: (of) => ({ ...of, checks: { countermovement: { use: true, limits: { warn: 90, fail: 120 } } } }),
    session: { pulls: [{ fault: 'dip', severity: { depth_n: 70 } }] },
    see: (stage) => check(stage, 'countermovement'),
    usual: 'fail',
    changed: 'pass',
  },
];

describe('every field of a protocol changes the run', () => {
  it.each(rows)('$at', ({ at, change, session, see, usual: before, changed: after }) => {
    // Where the row is about what must count, the base closes at the same place.
    const from = at === 'maximal.minimum' ? part('maximal', { minimum: 1, planned: 2, maximum: 2 })(base) : base;
    const to = change(from);
    expect(validateProtocol(to)).toMatchObject({ ok: true });
    expect(see(run(from, session))).toEqual(before);
    expect(see(run(to, session))).toEqual(after);
  });

  it('and none of its numbers is left out', () => {
    const covered = new Set(rows.map(({ at }) => at));
    expect(protocolFields.map(({ path }) => path).filter((path) => !covered.has(path))).toEqual([]);
  });
});

it('runs a first time to its end: rising submaximal efforts, nothing maximal', () => {
  const first: ProtocolDocument = {
    ...base,
    warmUp: { ...base.warmUp, efforts: [0.3, 0.6].map((one) => ({ share: one, band: 0.2, weightShare: 1.5 })) },
    maximal: { minimum: 0, planned: 0, maximum: 0 },
  };
  const stage = run(first, { pulls: ['aimed', 'aimed', good], cold: true, plan: { maximalTrials: 0 } });
  expect(stage.closed.map(({ effort: kind, closeness }) => [kind, closeness?.where])).toEqual([
    ['submaximal', 'inside'],
    ['submaximal', 'inside'],
  ]);
  expect(stage.said('done')).toBe(true);
});
