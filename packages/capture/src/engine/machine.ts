import { defaultJumpMethod, type Method, type RunningRules, type SampleSpan, type SetRule } from '@sthene/core';
import type { EngineConfig } from './config.ts';
import type { RecordedSpan } from './judging/live-recording.ts';
import type { EngineEvent, EngineOutput } from './output.ts';
import { type NextEffort, nextEffort, type Person, targetOf } from './person.ts';
import type { Phase } from './phase.ts';
import type { JumpOfTest } from './phases/jump.ts';
import { jumpWords, type SayingId, sayings } from './sayings/sayings.ts';
import type { Attempt, Question, Turn, Unreviewed } from './state.ts';
import type { Block } from './stream/block.ts';
import { Presence } from './stream/presence.ts';
import type { RigStream } from './stream/rig-stream.ts';
import { Unloaded } from './stream/unloaded.ts';
import type { RememberedTrial, Target } from './trial.ts';

const between = (phase: Phase): boolean => phase === 'ready' || phase === 'cue';

/**
 * Everything the live engine remembers. Phases, orders and judging are functions over it; nothing else holds state, and nothing
 * in it comes from a clock.
 */
export class Machine {
  readonly config: EngineConfig;
  readonly rules: RunningRules;
  readonly method: Method;
  /** How the set of maximal efforts is judged: as the method has it, in a jump test as the jump method has it. */
  readonly setRule: SetRule;
  readonly people = new Map<string, Person>();
  readonly questions = new Map<string, Question>();
  readonly presence: Presence;
  /** Set in a jump test. */
  readonly jumpTest: JumpOfTest | undefined;
  readonly unloaded: Unloaded;
  unreviewed: Unreviewed[] = [];
  rig: RigStream | undefined;
  signal: 'up' | 'down' = 'up';
  /** A header of other plates came: its samples are not read. */
  foreign = false;
  /** The machine woke up, and nobody has said yet that the plates still run as they did. */
  rateUnchecked = false;
  /** The wrong rate was said. */
  rateSaid = false;
  phase: Phase = 'waiting';
  /** Sample at which the phase began. */
  since = 0;
  turn: Turn | undefined;
  turnNumber = 0;
  attempt: Attempt = {};
  /** Blocks of the phase that concern steadiness: the last ones, in a row and whole. */
  recent: Block[] = [];
  steadySince: number | undefined;
  /** When tension began to be steady, in the band or not. */
  tenseSince: number | undefined;
  /** When the setup was confirmed. */
  readyFrom = 0;
  /** End of the last recorded effort; the next record begins after it. */
  recordedTo = 0;
  /** Things said once until they change, by code. */
  readonly said = new Map<string, number | string>();
  #counter = 0;
  #out: EngineOutput[] = [];

  constructor(config: EngineConfig, rules: RunningRules, method: Method) {
    this.config = config;
    this.rules = rules;
    this.method = method;
    this.setRule = config.protocol.jump === undefined ? method.set : (config.jumpMethod ?? defaultJumpMethod).set;
    this.unloaded = new Unloaded(rules.zero);
    const { jump } = config.protocol;
    this.jumpTest = jump === undefined || rules.jump === undefined ? undefined : { kind: jump.kind, rules: rules.jump };
    // Who is in the air for so long does not come back.
    this.presence = new Presence(this.jumpTest?.rules.longestFlight);
  }

  get weighted(): boolean {
    return this.config.protocol.load === 'weight';
  }

  /** A drop jump: whoever makes it stands beside the plates before it. */
  get fromBox(): boolean {
    return this.jumpTest?.kind === 'drop';
  }

  get unit(): string {
    return this.config.protocol.parameters?.unit ?? 'N';
  }

  get handsFree(): boolean {
    return this.config.mode === 'hands-free';
  }

  /** Index up to which the stream was read. */
  get now(): number {
    return this.rig?.next ?? 0;
  }

  get rate(): number {
    return this.rig?.header.promisedRate ?? 1000;
  }

  /** Seconds as samples of the stream. */
  samples(seconds: number): number {
    return seconds * this.rate;
  }

  /** Body weight of the turn, or 0 in a test without one. */
  get base(): number {
    return this.turn?.weighing?.bodyWeight ?? 0;
  }

  /** Force of the stance before a jump. */
  get stance(): number {
    return this.attempt.stance ?? this.base;
  }

  get effort(): NextEffort {
    if (this.turn === undefined) return { kind: 'none', because: 'complete' };
    return nextEffort(this.turn.person, this.config.protocol, this.rules, this.setRule);
  }

  /** Band of the submaximal effort that comes next. */
  get target(): Target | undefined {
    const effort = this.effort;
    // How high a jump will be cannot be seen while it is made.
    if (effort.kind !== 'submaximal' || this.turn === undefined || this.jumpTest !== undefined) return undefined;
    if (this.weighted && this.turn.weighing === undefined) return undefined;
    return targetOf(this.turn.person.best, effort.effort, this.base);
  }

  /** Number of the trial under way or next; while a verdict is shown, of the one it is about. */
  get trial(): number {
    if (this.turn === undefined) return 0;
    return this.turn.person.trials.length + (this.phase === 'verdict' ? 0 : 1);
  }

  emit(event: EngineEvent): void {
    this.#out.push({ sample: this.now, ...event });
  }

  take(): EngineOutput[] {
    const out = this.#out;
    this.#out = [];
    return out;
  }

  nextId(prefix: string): string {
    this.#counter++;
    return `${prefix}-${this.#counter}`;
  }

  mark(label: string, at = this.now, data?: unknown): void {
    this.emit({ kind: 'mark', at, label, ...(data === undefined ? {} : { data }) });
  }

  say(code: SayingId, data?: Readonly<Record<string, number | string>>): void {
    const { to, words: usual } = sayings[code];
    const words = this.jumpTest === undefined ? usual : (jumpWords[code] ?? usual);
    this.emit({ kind: 'guidance', to, code, words, ...(data === undefined ? {} : { data }) });
  }

  /** Says something once until `said` forgets it. */
  sayOnce(code: SayingId): void {
    if (this.said.has(code)) return;
    this.said.set(code, 1);
    this.say(code);
  }

  alert(code: string, words: string): void {
    this.emit({ kind: 'alert', code, words });
  }

  countdown(of: 'zero' | 'stand-still' | 'rest' | 'away', seconds: number): void {
    const whole = Math.max(0, Math.ceil(seconds - 1e-9));
    const key = `countdown ${of}`;
    const before = this.said.get(key) as number | undefined;
    if (before === whole) return;
    this.said.set(key, whole);
    this.emit({ kind: 'countdown', of, seconds: whole, restarted: before !== undefined && whole > before });
  }

  enter(phase: Phase, because: string): void {
    const from = this.phase;
    this.phase = phase;
    this.since = this.now;
    this.steadySince = undefined;
    this.tenseSince = undefined;
    // The last second of steadiness goes on from ready into the count and back.
    if (!(between(from) && between(phase))) this.recent = [];
    this.said.clear();
    const { effort, target, turn } = this;
    this.emit({
      kind: 'phase',
      phase,
      turn: this.turnNumber,
      trial: this.trial,
      ...(turn === undefined ? {} : { person: turn.person.ref }),
      ...(effort.kind === 'none' ? {} : { effort: { kind: effort.kind, ...(target ? { target } : {}) } }),
      ...(turn?.person.plan.goesOn === 'here' ? { goesOn: true as const } : {}),
      ...(this.jumpTest === undefined ? {} : { jump: this.jumpTest.kind }),
      because,
    });
    if (from !== phase) this.mark(`phase ${phase}`, this.now, { turn: this.turnNumber, trial: this.trial, because });
  }

  ask(
    code: Question['code'],
    words: string,
    answers: readonly string[],
    data: Readonly<Record<string, number | string>>,
    act: Question['act'],
  ): void {
    const id = this.nextId('question');
    this.questions.set(id, { id, code, answers, act });
    this.emit({ kind: 'question', id, code, words, answers, data });
    this.mark(`question ${code}`, this.now, { id, ...data });
  }

  openQuestion(code: Question['code']): Question | undefined {
    for (const question of this.questions.values()) if (question.code === code) return question;
    return undefined;
  }

  closeQuestion(question: Question, answer: string): void {
    this.questions.delete(question.id);
    this.emit({ kind: 'question-closed', id: question.id, answer });
  }

  closeQuestions(answer: string): void {
    for (const question of [...this.questions.values()]) this.closeQuestion(question, answer);
  }

  /** Voids a running count and takes a requested cue back. */
  voidCount(because: string): void {
    const { count, request, cue } = this.attempt;
    if (count !== undefined || (request !== undefined && cue === undefined)) {
      this.emit({ kind: 'count-void', because });
      this.mark('count void', this.now, { because });
    }
    delete this.attempt.count;
  }

  /** The recorded raw samples of a span. */
  recorded(span: SampleSpan): RecordedSpan {
    const { rig } = this;
    if (rig === undefined) throw new Error('No stream.');
    const { channels, signals } = rig.layout;
    return {
      sampleRate: rig.rate,
      channels: channels.map(({ channel }) => channel),
      raw: channels.map((_, c) => rig.kept.copy(c, span)),
      beside: {
        channels: signals.map(({ channel }) => channel),
        raw: signals.map((_, c) => rig.kept.copy(channels.length + c, span)),
      },
    };
  }

  state(): void {
    this.emit({ kind: 'state', armed: this.turn?.armed ?? false, held: this.turn?.held ?? false });
  }

  /** Who stands on the plates in a turn, and what they weighed; undefined while nobody does. */
  get standing(): { readonly person: string; readonly bodyWeight: number } | undefined {
    const { turn, presence } = this;
    if (turn?.weighing === undefined || turn.away !== undefined || turn.glance !== undefined || !presence.on)
      return undefined;
    return { person: turn.person.ref, bodyWeight: turn.weighing.bodyWeight };
  }

  /** All closed trials of an athlete so far. */
  trialsOf(person: string): readonly RememberedTrial[] {
    return this.people.get(person)?.trials.map(({ trial }) => trial) ?? [];
  }
}
