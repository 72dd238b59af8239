import {
  type ClosedTrial,
  type Command,
  correctedChannels,
  createEngine,
  type Engine,
  type EngineInput,
  type EngineOutput,
  isRigSource,
  isVirtual,
  type LineFault,
  type Mode,
  type Order,
  type Packet,
  type Phase,
  type RememberedTrial,
  type Source,
  type TurnPlan,
  type VirtualPlates,
} from '@sthene/capture';
import type { RigFloor, RigState } from '@sthene/contract';
import type { MonotonicNanoseconds, RunningRules, UtcInstant } from '@sthene/core';
import { type Recipes, rulesOf, testOf } from '../day/plan.ts';
import { FileTurns } from './file-turns.ts';
import { inputLabel, inputMark } from './inputs.ts';
import type { RigJournal } from './journal.ts';
import { endSampleOf } from './keep-trial.ts';
import type { Closing, Expiry, RigRuntimeOptions, RigTest } from './rig-options.ts';
import { RigStream } from './rig-stream.ts';
import { stageWords, stateOfStatus, wordsOfPhase } from './rig-words.ts';

/**
 * One open rig: its source's packets go to the journal first, then to the live engine of each test of the day. Everything an
 * engine is told besides packets is journalled too, so that the day can be run again from the journal alone.
 */
export class RigRuntime {
  readonly id: string;
  journal: RigJournal;
  readonly #source: Source;
  readonly #options: RigRuntimeOptions;
  readonly #engines = new Map<string, Engine>();
  #test: string;
  /** When the packet came that the engines are looking at. */
  #arrived: MonotonicNanoseconds | undefined;
  readonly stream: RigStream;
  /** The engine's last word on phase, turn and trial. */
  phase: Phase = 'waiting';
  turn = 0;
  trial = 0;
  since = 0;
  /** In a turn of a jump test: its kind, and in the phase of the jump where it stands. */
  jump: RigFloor['jump'];
  armed = false;
  held = false;
  now: RigFloor['now'] = { code: 'waiting', words: 'Nobody is on the rig.' };
  /** What is to be said to the athlete; undefined while nobody is there. */
  say: RigFloor['now'] | undefined;

  constructor(options: RigRuntimeOptions) {
    this.id = options.id;
    this.journal = options.newJournal();
    this.#source = options.source;
    this.#options = options;
    this.stream = new RigStream(() => options.listener.changed(this));
    const [first] = options.tests;
    this.#test = first?.plan.test ?? '';
    const kind = first && testOf(first.plan).jump?.kind;
    if (kind !== undefined) this.jump = { kind };
    if (!options.files) for (const test of options.tests) this.#engines.set(test.plan.test, this.#engineFor(test));
  }

  get tests(): readonly RigTest[] {
    return this.#options.tests;
  }

  get mode(): Mode {
    return this.#options.mode;
  }

  get test(): string {
    return this.#test;
  }

  rules(): RunningRules | undefined {
    const test = this.tests.find(({ plan }) => plan.test === this.#test);
    return test && rulesOf(test.plan);
  }

  recipesOf(test: string): Recipes | undefined {
    return this.tests.find(({ plan }) => plan.test === test);
  }

  /** Lets something go wrong on virtual plates; undefined where the plates are real. */
  disturb(faultAt: (position: number) => LineFault): number | undefined {
    const source = this.#source;
    if (!isVirtual(source)) return undefined;
    const fault = faultAt(source.position);
    source.disturb(fault);
    return fault.from;
  }

  /** Of a rig of several sources: how each of them stands. */
  get parts(): readonly { readonly state: RigState; readonly words: string }[] {
    if (!isRigSource(this.#source)) return [];
    return this.#source.states().map(({ state, words }) => ({ state: stateOfStatus[state], words }));
  }

  /** Of a rig of several sources: scatter of the worst clock about its line, s. */
  get residual(): number | undefined {
    if (!isRigSource(this.#source)) return undefined;
    const known = this.#source.alignments().flatMap(({ line }) => line?.residual ?? []);
    return known.length === 0 ? undefined : Math.max(...known);
  }

  trialsOf(person: string, test: string): readonly RememberedTrial[] {
    return this.#engines.get(test)?.trialsOf(person) ?? [];
  }

  /** Who stands on the plates in the present turn, and what they weighed, N; undefined while nobody does. */
  get standing(): { readonly person: string; readonly bodyWeight: number } | undefined {
    return this.#engines.get(this.#test)?.standing;
  }

  #engineFor({ plan, method, jumpMethod }: RigTest): Engine {
    return createEngine({
      protocol: testOf(plan),
      method,
      ...(jumpMethod === undefined ? {} : { jumpMethod }),
      running: rulesOf(plan),
      gravity: this.#options.gravity,
      mode: this.#options.mode,
      liveRate: 10,
    });
  }

  async start(): Promise<void> {
    await this.#source.start((packet) => this.#packet(this.#corrected(packet)));
  }

  async stop(): Promise<void> {
    this.stream.closing();
    await this.#source.stop();
    await this.journal.close();
    this.stream.closed();
  }

  readonly #files = new FileTurns({
    begin: (first) => {
      if (!first) this.journal = this.#options.newJournal();
      this.stream.another();
    },
    append: (packet) => {
      this.journal.append(packet);
      this.stream.count(packet);
    },
    note: (packet) => this.stream.note(packet),
    mark: (label, sample, data) => this.#mark(label, sample, data),
    changed: () => this.#options.listener.changed(this),
    tick: () => this.#options.listener.tick(this),
    ended: (packets) => this.#options.listener.fileEnded(this, packets),
  });

  get files(): boolean {
    return this.#options.files;
  }

  /** The opening of a stream with the rig's correction in its channels; samples stay as they came. */
  #corrected(packet: Packet): Packet {
    const { correction } = this.#options;
    if (packet.kind !== 'header' || correction === undefined) return packet;
    return { ...packet, channels: correctedChannels(packet.channels, correction) };
  }

  /** The plates themselves where they are virtual, for what is done to them by hand. */
  get virtualPlates(): VirtualPlates | undefined {
    return isVirtual(this.#source) ? this.#source : undefined;
  }

  #packet(packet: Packet): void {
    if (this.#options.files) {
      this.#files.packet(packet);
      return;
    }
    // Safe first: nothing looks at a packet the journal has not taken.
    this.journal.append(packet);
    this.stream.count(packet);
    this.stream.note(packet);
    this.#arrived = this.#options.clock.monotonic();
    for (const test of this.#engines.keys()) this.#step(test, { kind: 'packet', packet });
    this.#arrived = undefined;
    if (packet.kind === 'samples') {
      this.#options.listener.samples?.(this, packet);
      this.#options.listener.tick(this);
    } else if (packet.kind !== 'mark') this.#options.listener.changed(this);
  }

  /** The machine was asleep: engines take the zero again, and the rate is compared with what it was. */
  wokeUp(seconds: number): void {
    if (this.#options.files || !this.stream.wokeUp()) return;
    for (const test of this.#engines.keys()) this.#own(test, { order: 'woke-up', seconds });
  }

  /** Called now and then: says once whether the plates run as before. */
  checkRate(): void {
    const same = this.stream.checkRate();
    if (same === undefined) return;
    for (const test of this.#engines.keys()) this.#own(test, { order: 'rate-checked', same });
  }

  /** An order of the station itself, for the turn an engine counts. */
  #own(test: string, order: Order): void {
    const at = this.#options.clock.monotonic();
    const address = { at, expires: (at + 1_000_000_000n) as MonotonicNanoseconds };
    const command = { ...order, turn: this.turnOf(test), trial: this.trial, phase: this.phase, ...address } as Command;
    this.#tell(test, { kind: 'command', command });
  }

  /** Gives an order to the engine of a test; what came of it is among the outputs. */
  order(order: Order, address: Expiry, test = this.#test, phase?: Phase): readonly EngineOutput[] {
    if (this.#options.files) {
      this.#fileTurn(order, test);
      return [];
    }
    if (order.order === 'next-athlete' && test !== this.#test) {
      const other = this.#test;
      if (this.phase !== 'waiting') this.#tell(other, commandOf(this, { order: 'end-turn' }, address));
      this.#test = test;
      // The other engine has counted its own turns.
      this.turn = this.#turns.get(test) ?? 0;
      this.trial = 0;
      this.phase = 'waiting';
    }
    return this.#tell(test, commandOf(this, this.#next(order), address, phase));
  }

  /** The engines of other tests have not seen the zero that was taken last. */
  #next(order: Order): Order {
    if (order.order !== 'next-athlete') return order;
    this.#expect(order.next);
    const { zeroAt, zeros } = this.stream;
    return zeroAt === undefined ? order : { ...order, next: { ...order.next, zeros } };
  }

  #expect({ person, lastBodyWeight }: TurnPlan): void {
    if (lastBodyWeight !== undefined && isVirtual(this.#source)) this.#source.expect(person, lastBodyWeight);
  }

  /** A turn at a watched folder waits for its file and nothing else. */
  #fileTurn(given: Order, test: string): void {
    const { order } = given;
    if (order === 'next-athlete') {
      this.#files.waitFor({ person: given.next.person, test });
      this.#test = test;
      this.turn = this.turnOf(test) + 1;
      this.trial = 1;
      this.#turns.set(test, this.turn);
      this.phase = 'ready';
      this.now = { code: 'file', words: 'Waiting for the file' };
    } else if (order === 'end-turn') this.fileDone('waiting');
  }

  /** The file of this turn was judged. */
  fileDone(phase: 'rest' | 'waiting'): void {
    this.#files.waitFor(undefined);
    this.phase = phase;
    this.now = wordsOfPhase(phase);
  }

  readonly #turns = new Map<string, number>();

  /** Number of the last turn of a test. */
  turnOf(test: string): number {
    return this.#turns.get(test) ?? 0;
  }

  /** Tells the engine when a cue sounded; `how` it was given and how well the time is known stays in the journal. */
  cueSounded(cue: string, at: MonotonicNanoseconds | undefined, how?: object): readonly EngineOutput[] {
    return this.#tell(this.#test, { kind: 'cue-sounded', cue, sample: this.stream.sampleAt(at) }, how);
  }

  #tell(test: string, input: EngineInput, how?: object): readonly EngineOutput[] {
    this.#mark(inputLabel, this.stream.next, { ...inputMark(test, input), ...(how === undefined ? {} : { how }) });
    return this.#step(test, input);
  }

  #mark(label: string, sample: number, data?: unknown): void {
    const at = this.#options.clock.monotonic();
    this.journal.append({ kind: 'mark', sample, label, at, ...(data === undefined ? {} : { data }) });
  }

  #step(test: string, input: EngineInput): readonly EngineOutput[] {
    const outputs = this.#engines.get(test)?.step(input) ?? [];
    for (const output of outputs)
      if (test === this.#test) this.#output(test, output);
      else this.#ofOther(test, output);
    return outputs;
  }

  /** A test that has no turn now still looks at the empty plates after its last one. */
  #ofOther(test: string, output: EngineOutput): void {
    if (output.kind === 'mark') this.#mark(output.label, output.at, output.data);
    if (output.kind === 'trial-reviewed' || (output.kind === 'alert' && output.code === 'verdict-changed'))
      this.#options.listener.output(this, output, test);
  }

  #output(test: string, output: EngineOutput): void {
    // Virtual people follow what the engine says, as people on a rig follow their screen.
    if (isVirtual(this.#source)) this.#source.notice(output);
    switch (output.kind) {
      case 'mark':
        this.#mark(output.label, output.at, output.data);
        break;
      case 'phase':
        this.phase = output.phase;
        this.turn = output.turn;
        this.trial = output.trial;
        this.since = output.sample;
        this.jump = output.jump === undefined ? undefined : { kind: output.jump };
        this.#turns.set(test, output.turn);
        this.now = wordsOfPhase(output.phase, output.jump);
        this.say = output.phase === 'waiting' ? undefined : this.now;
        break;
      case 'stage':
        this.jump = { ...this.jump, stage: output.stage, flights: output.flights } as RigFloor['jump'];
        this.now = stageWords[output.stage];
        this.say = this.now;
        break;
      case 'guidance':
        this.now = { code: output.code, words: output.words };
        if (output.to === 'athlete') this.say = this.now;
        break;
      case 'state':
        this.armed = output.armed;
        this.held = output.held;
        break;
      case 'zero':
        this.stream.zeroed(output.zeros, output.window, this.#options.clock.wall());
        break;
      case 'trial-closed':
        this.#options.listener.closed(this, this.#closingOf(output.trial));
        break;
    }
    this.#options.listener.output(this, output, test);
  }

  #closingOf(closed: ClosedTrial): Closing {
    const now = this.#options.clock.monotonic();
    // By the arrival of what let it be seen, so that the analysis is part of the wait; a stop by hand is seen now.
    const detected = this.#arrived ?? now;
    const wall = Date.parse(this.#options.clock.wall());
    const instant = (sample: number) =>
      new Date(wall - 1000 * this.stream.secondsAgo(sample)).toISOString() as UtcInstant;
    const { start, end } = closed.span;
    const stationTime = { start: this.stream.millisecondsOf(start), end: this.stream.millisecondsOf(end) };
    const synchronisation = isRigSource(this.#source) ? this.residual : 0;
    return {
      closed,
      recorded: this.stream.span({ start, end }, this.#unit, closed.sampleRate),
      startedAt: instant(start),
      endedAt: instant(endSampleOf(closed)),
      ...(stationTime.start === undefined || stationTime.end === undefined
        ? {}
        : { stationTime: { start: stationTime.start, end: stationTime.end } }),
      ...(synchronisation === undefined ? {} : { synchronisation }),
      detected,
    };
  }

  /** In which the test of the turn is analysed. */
  get #unit(): string {
    const known = this.tests.find(({ plan }) => plan.test === this.#test);
    return (known && testOf(known.plan).parameters?.unit) ?? 'N';
  }
}

function commandOf(rig: RigRuntime, order: Order, { at, expires }: Expiry, phase = rig.phase): EngineInput {
  const command = { ...order, turn: rig.turn, trial: rig.trial, phase, at, expires } as Command;
  return { kind: 'command', command };
}
