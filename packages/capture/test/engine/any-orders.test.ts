import { expect, it } from 'vitest';
import type { EngineConfig, EngineInput, EngineOutput, Order } from '../../src/engine/index.ts';
import { quickRules } from './acts.ts';
import { seededRandom } from './core.ts';
import { jump, jumpConfig } from './jump-acts.ts';
import { dropCurve, hopCurve, jumpCurve } from './jumper.ts';
import { type Athlete, athlete, planOf, replay, Stage } from './stage.ts';

const people = [athlete('p-wren'), athlete('p-heron', { bodyWeight: 860, shareRight: 0.53 })] as const;
const packet = (state: 'lost' | 'returned'): EngineInput => ({
  kind: 'packet',
  packet: { kind: 'status', state, words: 'As told.', at: 0n as never },
});

type Mode = 'guided' | 'hands-free';
/** What the efforts of a wild day are: pulls, or the jumps of a test. */
interface Wild {
  readonly config: (mode: Mode) => Partial<EngineConfig>;
  readonly effort: (stage: Stage, who: Athlete, random: number) => void;
}

const pulls: Wild = {
  config: (mode) => ({ running: quickRules, mode }),
  effort: (stage, _, random) => void stage.pull({ hold: 1 + random }, 1 + Math.floor(98 * random)),
};
const jumps = (test: 'countermovement-jump' | 'repeated-hops'): Wild => ({
  config: (mode) => jumpConfig(test, { mode }),
  effort: (stage, who, random) => {
    const shape = { weight: who.bodyWeight, velocity: 2 + random };
    const curve = random < 0.3 ? hopCurve(shape, 4) : random < 0.5 ? dropCurve(shape) : jumpCurve(shape);
    jump(stage, who, curve);
  },
});

/** Anything at any time: orders, steps on and off, efforts, gaps, unplugging. */
function wildDay(seed: number, mode: Mode, wild: Wild): Stage {
  const stage = new Stage(wild.config(mode));
  const random = seededRandom(seed, 9);
  let on = false;
  let who: (typeof people)[number] = people[0];
  const question = () => stage.of('question').at(-1);
  const acts: (() => void)[] = [
    () => stage.order({ order: 'next-athlete', next: planOf(who, { warmUpDone: 1 }) }),
    () => {
      if (on) stage.stepOff();
      else {
        who = random.pick(people);
        stage.stepOn(who);
      }
      on = !on;
    },
    () => {
      if (on) wild.effort(stage, who, random.uniform());
    },
    () => stage.wait(random.between(0.1, 6)),
    () => stage.wait(random.between(3, 12)),
    () => {
      if (stage.of('cue-request').length > 0) stage.sound();
    },
    () => {
      const count = Math.floor(random.between(1, 400));
      const first = stage.next;
      stage.input({ kind: 'packet', packet: { kind: 'gap', first, count, cause: 'lost', at: 0n as never } }, count);
      stage.next += count;
    },
    () => stage.input(packet('lost')),
    () => {
      const last = question();
      if (last !== undefined) {
        const answer = random.pick(last.answers as [string, ...string[]]);
        stage.order({ order: 'answer', question: last.id, answer, by: 'u-operator' });
      }
    },
    () => {
      const orders: readonly [Order, ...Order[]] = [
        { order: 'advance' },
        { order: 'advance' },
        { order: 'cue-now' },
        { order: 'arm' },
        { order: 'skip' },
        { order: 'abort' },
        { order: 'hold' },
        { order: 'resume' },
        { order: 'redo-zero' },
        { order: 'end-turn' },
        { order: 'pain-stop', by: 'u-operator' },
        { order: 'release-pain', person: who.ref, by: 'u-physio', reason: 'looked at' },
        { order: 'judge', of: 1, decision: 'counts', by: 'u-coach', reason: 'seen' },
      ];
      stage.order(random.pick(orders));
    },
  ];
  const step = (want: boolean): void => {
    if (on === want) return;
    if (want) stage.stepOn(who);
    else stage.stepOff();
    on = want;
  };
  const goOn = (): void => {
    stage.order({ order: 'resume' });
    if (stage.phase === 'waiting' || stage.phase === 'zero') {
      if (stage.phase === 'waiting') acts[0]?.();
      step(false);
      stage.wait(2);
    } else if (stage.phase === 'cue') {
      if (stage.until('cue-request', 4)) {
        stage.sound();
        if (on) wild.effort(stage, who, 0.6);
      }
    } else {
      step(true);
      stage.order({ order: mode === 'guided' ? 'advance' : 'arm' });
      stage.wait(stage.phase === 'rest' ? 9 : 2);
    }
  };
  stage.wait(1.5);
  for (let i = 0; i < 90; i++) {
    // Mostly the day goes on as it should, or it would never come to a pull.
    if (random.uniform() < 0.65) goOn();
    else random.pick(acts as [() => void, ...(() => void)[]])();
  }
  return stage;
}

/** What must hold whatever happens. */
function invariants(outputs: readonly EngineOutput[], mode: string): void {
  let state = { armed: false, held: false };
  let pain = new Set<string>();
  let phase: Extract<EngineOutput, { kind: 'phase' }> | undefined;
  for (const output of outputs) {
    if (output.kind === 'state') state = output;
    if (output.kind === 'phase') phase = output;
    if (output.kind === 'mark' && output.label === 'pain stop') pain.add((output.data as { person: string }).person);
    if (output.kind === 'mark' && output.label === 'pain stop released') {
      pain = new Set([...pain].filter((ref) => ref !== (output.data as { person: string }).person));
    }
    if (output.kind === 'cue-request' || output.kind === 'count') {
      expect(state.held).toBe(false);
      expect(phase?.phase).toBe('cue');
      if (mode === 'hands-free') expect(state.armed).toBe(true);
      if (phase?.effort?.kind === 'maximal') expect(pain.has(phase.person ?? '')).toBe(false);
    }
    if (output.kind === 'trial-closed') {
      const { span, sampleRate, effort, cue, verdict } = output.trial;
      expect(span.end).toBeGreaterThan(span.start);
      expect((span.end - span.start) / sampleRate).toBeLessThan(34);
      expect(span.end).toBeLessThanOrEqual(output.sample);
      if (effort === 'maximal' && cue === undefined) expect(verdict).not.toBe('counts');
    }
  }
  // Two trials never share a sample.
  const spans = outputs.flatMap((o) => (o.kind === 'trial-closed' ? [o.trial.span] : []));
  spans.forEach((span, at) => {
    expect(span.start).toBeGreaterThanOrEqual(spans[at - 1]?.end ?? 0);
  });
}

/** The days must be wild enough to prove something: so many trials and cues at least. */
function survives(wild: Wild, seeds: number, least: { readonly trials: number; readonly cues: number }): void {
  let trials = 0;
  let cues = 0;
  for (let seed = 1; seed <= seeds; seed++) {
    const mode = seed % 2 === 0 ? 'guided' : 'hands-free';
    const stage = wildDay(seed, mode, wild);
    invariants(stage.outputs, mode);
    trials += stage.closed.length;
    cues += stage.of('cue-request').length;
    expect(replay(stage, wild.config(mode), () => 113)).toEqual(stage.outputs);
  }
  expect(trials).toBeGreaterThan(least.trials);
  expect(cues).toBeGreaterThan(least.cues);
}

it('survives anything at any time, and replays to the same', () => {
  survives(pulls, 8, { trials: 15, cues: 15 });
});

it.each(['countermovement-jump', 'repeated-hops'] as const)('survives anything in a %s too', (test) => {
  survives(jumps(test), 2, { trials: 1, cues: 1 });
});
