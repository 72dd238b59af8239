import type { Command, LivePhase, LiveVerdict, RigFloor, ToOperator, ToWall } from '@sthene/contract';
import { givenName, scriptedDay, scriptedRig, scriptedTurn } from './live-people.ts';

/** A message before it is numbered. */
type Unnumbered<M> = M extends { sequence: number } ? Omit<M, 'sequence'> : never;
export type Said = Unnumbered<ToOperator>;
export type WallSaid = Unnumbered<ToWall>;

export interface ScriptOptions {
  readonly effort: 'maximal' | 'submaximal';
  readonly handsFree: boolean;
  /** Advances by itself where a person would press. */
  readonly auto: boolean;
  /** Wall clock of the day, ms. */
  readonly wallClock: number;
}

const rate = 1000;
const bucket = 5;
const weight = 742;
const phaseNow: Record<LivePhase, string> = {
  waiting: 'Call the next athlete.',
  zero: 'Step off the plates',
  'stand-still': 'Stand still',
  'set-up': 'Confirm the setup.',
  ready: 'Ready. Wait for the cue',
  cue: 'Ready. Wait for the cue',
  pull: 'Keep pushing',
  verdict: 'Rest',
  rest: 'Rest',
};
const lengths: Partial<Record<LivePhase, number>> = { zero: 1500, 'stand-still': 3000, cue: 3400, pull: 4200 };
const after: Record<LivePhase, LivePhase> = {
  waiting: 'zero',
  zero: 'stand-still',
  'stand-still': 'set-up',
  'set-up': 'ready',
  ready: 'cue',
  cue: 'pull',
  pull: 'verdict',
  verdict: 'rest',
  rest: 'set-up',
};

/**
 * A made-up station that plays a turn: the same messages for the same ticks and commands. It judges nothing; it only has the manners
 * of the real one, so that screens can be built and tested without plates.
 */
export class LiveScript {
  readonly #options: ScriptOptions;
  #phase: LivePhase = 'waiting';
  #since = 0;
  #sample = 0;
  #trial = 1;
  #turn = false;
  #held = false;
  #armed = false;
  #blank = false;
  #holder: { id: string; name: string } | undefined;
  #count = 0;
  #verdict: LiveVerdict | undefined;
  #noise = 7;

  constructor(options: Partial<ScriptOptions> = {}) {
    this.#options = { effort: 'maximal', handsFree: false, auto: false, wallClock: 0, ...options };
  }

  get phase(): LivePhase {
    return this.#phase;
  }

  snapshot(you: { device: string; name: string }): Said {
    return {
      type: 'snapshot',
      protocol: 1,
      clock: { monotonic: this.#sample, wall: new Date(0).toISOString() },
      lab: 'example',
      you: { ...you, role: 'operator' },
      controls: this.#controls(),
      day: scriptedDay(this.#options.wallClock),
      rigs: [scriptedRig],
      floors: [this.#floor()],
      alerts: [],
      questions: [],
      verdicts: this.#verdict === undefined ? [] : [this.#verdict],
    };
  }

  wall(): WallSaid {
    const shown = !this.#blank;
    const turn = this.#turn;
    const verdict = this.#verdict;
    return {
      type: 'wall',
      blank: this.#blank,
      title: shown ? 'Winter test, first boat' : '',
      rigs: shown
        ? [
            {
              rig: 'rig-a',
              letter: 'A',
              shape: 'circle',
              phase: this.#phase,
              ...(turn ? { who: givenName('p1'), what: scriptedTurn(this.#effort()).words } : {}),
              now: phaseNow[this.#phase],
              scale: 3000,
              ...(this.#options.effort === 'submaximal' ? { target: { low: 1450, high: 1620 } } : {}),
              ...(turn ? { best: 2018 } : {}),
              ...(verdict === undefined
                ? {}
                : {
                    result: {
                      trial: verdict.trial,
                      verdict: verdict.verdict,
                      say: verdict.say,
                      highest: 2126,
                      best: true,
                    },
                  }),
            },
          ]
        : [],
      next: shown ? [{ who: givenName('p2'), rig: 'rig-a', restLeft: 72 }] : [],
    };
  }

  /** What the station says in the next `ms` (a multiple of 50). */
  tick(ms: number): Said[] {
    const said: Said[] = [];
    for (let done = 0; done < ms; done += 50) this.#step(said);
    return said;
  }

  obey(command: Pick<Command, 'id' | 'kind' | 'phase'>): Said[] {
    const said: Said[] = [];
    const { kind } = command;
    if (command.phase !== this.#phase && !['abort', 'pain', 'hold', 'finish'].includes(kind))
      return [
        {
          type: 'refused',
          id: command.id,
          code: 'wrong-phase',
          words: 'The command was meant for a phase that is over.',
          next: 'Look at the screen and decide again.',
        },
      ];
    if (kind === 'begin') this.#begin();
    else if (kind === 'advance' || kind === 'cue') this.#go(after[this.#phase], said);
    else if (kind === 'arm' || kind === 'disarm') this.#armed = kind === 'arm';
    else if (kind === 'hold' || kind === 'resume') this.#held = kind === 'hold';
    else if (kind === 'blank-wall' || kind === 'show-wall') this.#blank = kind === 'blank-wall';
    else if (kind === 'zero') this.#go('zero', said);
    else if (kind === 'skip') this.#go('set-up', said);
    else if (kind === 'finish') this.#finish();
    else if (kind === 'abort' || kind === 'pain') {
      if (this.#phase === 'pull') this.#judge(said, 'repeat');
      else if (this.#phase === 'cue') this.#go('ready', said);
    }
    return [{ type: 'accepted', id: command.id }, ...said, { type: 'phase', floor: this.#floor() }];
  }

  take(device: { id: string; name: string }): Said {
    this.#holder = device;
    return { type: 'controls', controls: this.#controls() };
  }

  ask(): Said {
    return {
      type: 'question',
      question: {
        id: 'q1',
        rig: 'rig-a',
        turn: 't1',
        code: 'is-this-the-athlete',
        words: 'The weight does not fit Ines Okoro. Is this Ines Okoro?',
        choices: [
          { id: 'yes', words: 'Yes, it is' },
          { id: 'no', words: 'No, someone else' },
        ],
      },
    };
  }

  #effort() {
    return this.#options.effort === 'maximal'
      ? { kind: 'maximal' as const }
      : { kind: 'submaximal' as const, share: 0.75 };
  }

  #controls() {
    const holder = this.#holder;
    return holder === undefined ? {} : { holder: holder.id, name: holder.name, since: new Date(0).toISOString() };
  }

  #floor(): RigFloor {
    const weighed = this.#turn && !['waiting', 'zero', 'stand-still'].includes(this.#phase);
    return {
      rig: 'rig-a',
      phase: this.#phase,
      since: this.#since,
      ...(this.#turn ? { turn: scriptedTurn(this.#effort()), trial: `t1-${this.#trial}` } : {}),
      guided: !this.#options.handsFree,
      armed: this.#armed,
      held: this.#held,
      now: { code: this.#phase, words: phaseNow[this.#phase] },
      ...(this.#turn
        ? {
            weighing: weighed
              ? { progress: 1, done: true, bodyWeight: weight, leftShare: 0.492 }
              : {
                  progress: this.#phase === 'stand-still' ? Math.min(1, (this.#sample - this.#since) / 3000) : 0,
                  done: false,
                },
            best: 2760,
          }
        : {}),
      ...(weighed ? { tension: { low: weight - 35, high: weight + 35 } } : {}),
      ...(weighed && this.#options.effort === 'submaximal'
        ? { target: { low: weight + 1450, high: weight + 1620 } }
        : {}),
      scale: { low: 0, high: 3500 },
    };
  }

  #begin(): void {
    this.#turn = true;
    this.#trial = 1;
    this.#verdict = undefined;
    this.#set('zero');
  }

  #finish(): void {
    this.#turn = false;
    this.#verdict = undefined;
    this.#set('waiting');
  }

  #set(phase: LivePhase): void {
    this.#phase = phase;
    this.#since = this.#sample;
    this.#count = 0;
  }

  #go(phase: LivePhase, said: Said[]): void {
    if (phase === 'set-up' && this.#phase === 'rest') {
      this.#trial++;
      this.#verdict = undefined;
    }
    this.#set(phase);
    said.push({ type: 'phase', floor: this.#floor() });
  }

  #step(said: Said[]): void {
    const total: number[] = [];
    const left: number[] = [];
    const right: number[] = [];
    let sum = 0;
    for (let i = 0; i < 10; i++) {
      const force = this.#force(this.#sample + i * bucket);
      const share = 0.492 + 0.012 * Math.sin((this.#sample + i * bucket) / 590);
      sum += force / 10;
      total.push(tenth(force - 2), tenth(force + 2));
      left.push(tenth(force * share - 1), tenth(force * share + 1));
      right.push(tenth(force * (1 - share) - 1), tenth(force * (1 - share) + 1));
    }
    said.push({ type: 'envelope', rig: 'rig-a', first: this.#sample, bucket, rate, unit: 'N', total, left, right });
    this.#sample += 50;
    if (this.#sample % 100 === 0) {
      said.push({
        type: 'live',
        rig: 'rig-a',
        sample: this.#sample,
        total: tenth(sum),
        left: tenth(sum * 0.49),
        right: tenth(sum * 0.51),
        unit: 'N',
        channels: [],
      });
    }
    if (this.#sample % 500 === 0)
      said.push({
        type: 'confirmed',
        rig: 'rig-a',
        recording: true,
        samples: Math.max(0, this.#sample - 350),
        bytes: this.#sample * 32,
        age: 350,
      });
    if (!this.#held) this.#passTime(said);
  }

  #passTime(said: Said[]): void {
    const spent = this.#sample - this.#since;
    const seconds = Math.floor(spent / 1000);
    if (this.#phase === 'cue') this.#counting(seconds, said);
    else if (this.#phase === 'stand-still' && spent % 500 === 0) {
      said.push({ type: 'phase', floor: this.#floor() });
      if (spent % 1000 === 0)
        said.push({
          type: 'countdown',
          rig: 'rig-a',
          turn: 't1',
          of: 'stand-still',
          left: 3 - seconds,
          restarted: false,
        });
    } else if (this.#phase === 'rest' && spent % 1000 === 0)
      said.push({
        type: 'countdown',
        rig: 'rig-a',
        turn: 't1',
        of: 'rest',
        left: Math.max(0, 180 - seconds),
        restarted: false,
      });
    const length = lengths[this.#phase] ?? (this.#options.auto && this.#turn ? 1500 : Number.POSITIVE_INFINITY);
    if (spent < length) return;
    if (this.#phase === 'pull') this.#judge(said, 'counts');
    else this.#go(after[this.#phase], said);
  }

  #counting(seconds: number, said: Said[]): void {
    const sounds = ['three', 'two', 'one', 'go'] as const;
    if (seconds < this.#count || seconds > 3) return;
    const sound = sounds[seconds] as (typeof sounds)[number];
    this.#count = seconds + 1;
    said.push({
      type: 'cue',
      id: `c${this.#trial}-${this.#sample}`,
      rig: 'rig-a',
      turn: 't1',
      trial: `t1-${this.#trial}`,
      sound,
      words: sound === 'go' ? 'Push' : sound,
      at: this.#sample,
      expires: 1000,
    });
    if (sound !== 'go')
      said.push({ type: 'countdown', rig: 'rig-a', turn: 't1', of: 'count', left: 3 - seconds, restarted: false });
  }

  #judge(said: Said[], verdict: LiveVerdict['verdict']): void {
    this.#verdict = {
      rig: 'rig-a',
      turn: 't1',
      trial: 'good',
      session: 's1',
      person: { id: 'p1', name: 'Ines Okoro', code: 'FW-07' },
      effort: this.#effort(),
      verdict,
      reasons:
        verdict === 'counts' ? [] : [{ check: 'aborted', status: 'fail', words: 'The effort was stopped by hand.' }],
      say: verdict === 'counts' ? 'Good. That one counts' : 'Stopped. Relax',
      values: [
        {
          metric: 'peak_force',
          words: 'Peak force',
          value: 2868,
          unit: 'N',
          history: { n: 6, best: 2760, mean: 2690 },
          best: verdict === 'counts',
        },
        { metric: 'rfd_0_200', words: 'Rate of force development, 0 to 200 ms', value: 7445, unit: 'N/s', best: false },
      ],
      evidence: { recording: 'r1', span: { start: 0, end: 8000 }, onset: 2745, peak: 4270, end: 6470 },
      tookMs: 310,
    };
    this.#set('verdict');
    said.push({ type: 'phase', floor: this.#floor() }, { type: 'verdict', verdict: this.#verdict });
  }

  #force(sample: number): number {
    this.#noise = (this.#noise * 16_807) % 2_147_483_647;
    const noise = (this.#noise / 2_147_483_647 - 0.5) * 8;
    const t = (sample - this.#since) / 1000;
    if (!this.#turn || this.#phase === 'zero') return noise / 3;
    if (this.#phase === 'pull') {
      const top = this.#options.effort === 'maximal' ? 2868 : weight + 1530;
      const held = weight + (top - weight) * (1 - Math.exp(-((t / 0.19) ** 1.5)));
      return t > 3.4 ? weight + (held - weight) * Math.exp(-(t - 3.4) / 0.08) : held + noise + 7 * Math.sin(t * 55);
    }
    const standing = weight + 3 * Math.sin(t * 2.6) + noise;
    return this.#phase === 'ready' || this.#phase === 'cue' ? standing + 18 : standing;
  }
}

const tenth = (value: number): number => Math.round(value * 10) / 10;

/** What a wall hears of what was said: as the station strips it. */
export function forWall(said: Said, script: LiveScript): WallSaid | undefined {
  if (said.type === 'phase' || said.type === 'verdict') return script.wall();
  if (said.type === 'cue') {
    const { id, rig, sound, words, at, expires } = said;
    return { type: 'cue', id, rig, sound, words, at, expires };
  }
  if (said.type === 'countdown') {
    const { rig, of, left, restarted } = said;
    return { type: 'countdown', rig, of, left, restarted };
  }
  if (said.type !== 'envelope' || ['waiting', 'zero', 'stand-still', 'rest'].includes(script.phase)) return undefined;
  const { rig, first, bucket: size, rate: hertz, total } = said;
  return {
    type: 'wall-envelope',
    rig,
    first,
    bucket: size,
    rate: hertz,
    above: total.map((value) => Math.max(0, Math.round((value ?? 0) - weight))),
  };
}
