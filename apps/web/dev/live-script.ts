import type { Command, LivePhase, LiveVerdict, RigFloor } from '@sthene/contract';
import { scriptedFloor } from './live-floor.ts';
import { scriptedForce } from './live-force.ts';
import { bucket, rate, type Said, tenth, type WallSaid } from './live-messages.ts';
import { scriptedDay, scriptedRig } from './live-people.ts';
import { scriptedVerdict } from './live-verdict.ts';
import { scriptedWall } from './live-wall.ts';

export interface ScriptOptions {
  readonly effort: 'maximal' | 'submaximal';
  readonly handsFree: boolean;
  /** Advances by itself where a person would press. */
  readonly auto: boolean;
  /** Wall clock of the day, ms. */
  readonly wallClock: number;
}

const lengths: Partial<Record<LivePhase, number>> = { zero: 1500, 'stand-still': 3000, cue: 3400, pull: 4200 };
const after: Record<LivePhase, LivePhase> = {
  waiting: 'zero',
  zero: 'stand-still',
  'stand-still': 'set-up',
  'set-up': 'ready',
  ready: 'cue',
  cue: 'pull',
  pull: 'verdict',
  jump: 'verdict',
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
  readonly #force = scriptedForce();

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
      wallBlank: this.#blank,
      day: scriptedDay(this.#options.wallClock),
      rigs: [scriptedRig],
      floors: [this.#floor()],
      alerts: [],
      questions: [],
      verdicts: this.#verdict === undefined ? [] : [this.#verdict],
    };
  }

  wall(): WallSaid {
    return scriptedWall({
      phase: this.#phase,
      blank: this.#blank,
      held: this.#held,
      turn: this.#turn,
      effort: this.#effort(),
      verdict: this.#verdict,
    });
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
    else if (kind === 'blank-wall' || kind === 'show-wall') {
      this.#blank = kind === 'blank-wall';
      said.push({ type: 'wall-blank', blank: this.#blank });
    } else if (kind === 'zero') this.#go('zero', said);
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
    return scriptedFloor({
      phase: this.#phase,
      since: this.#since,
      sample: this.#sample,
      trial: this.#trial,
      turn: this.#turn,
      guided: !this.#options.handsFree,
      armed: this.#armed,
      held: this.#held,
      effort: this.#effort(),
    });
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
      const seconds = (this.#sample + i * bucket - this.#since) / 1000;
      const force = this.#force({ phase: this.#phase, turn: this.#turn, effort: this.#effort(), seconds });
      const share = 0.492 + 0.012 * Math.sin((this.#sample + i * bucket) / 590);
      sum += force / 10;
      total.push(tenth(force - 2), tenth(force + 2));
      left.push(tenth(force * share - 1), tenth(force * share + 1));
      right.push(tenth(force * (1 - share) - 1), tenth(force * (1 - share) + 1));
    }
    const told = { unit: 'N', forces: 'total' as const };
    said.push({ type: 'envelope', rig: 'rig-a', first: this.#sample, bucket, rate, ...told, total, left, right });
    this.#sample += 50;
    if (this.#sample % 100 === 0) {
      said.push({
        type: 'live',
        rig: 'rig-a',
        sample: this.#sample,
        forces: 'total',
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
    this.#verdict = scriptedVerdict(this.#effort(), verdict);
    this.#set('verdict');
    said.push({ type: 'phase', floor: this.#floor() }, { type: 'verdict', verdict: this.#verdict });
  }
}
