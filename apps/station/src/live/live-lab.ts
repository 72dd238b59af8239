import type { Correction, EngineOutput, Order } from '@sthene/capture';
import type { AlertView, Day, LiveVerdict, QuestionView, RigView } from '@sthene/contract';
import { liveProtocol } from '@sthene/contract';
import type { MonotonicNanoseconds } from '@sthene/core';
import type { Actor, Rig, StoredSource } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { stationActor } from '../labs/open-lab.ts';
import { nameOf } from '../work/people.ts';
import { Alerts } from './alerts.ts';
import { KeepAwake } from './awake.ts';
import { millisecondsOf } from './clock.ts';
import { Controls } from './controls.ts';
import { type LoadedDay, type LoadedEntry, loadDay } from './day/loaded.ts';
import { chooseNext } from './day/order.ts';
import { effortWords } from './day/remaining.ts';
import { candidatesOf, dayView, type Moment, restingOf } from './day/view.ts';
import { Client, type Device, type Message, type Socket, type Weight } from './hub/client.ts';
import { Hub } from './hub/hub.ts';
import { aboveStanding, wallState } from './hub/wall-view.ts';
import type { LivePorts } from './ports.ts';
import { floorView } from './rig/floor-view.ts';
import { keepReview, keepTrial } from './rig/keep-trial.ts';
import type { Closing, RigListener, RigRuntime } from './rig/rig-runtime.ts';
import { rigView } from './rig/rig-view.ts';
import { historyOf, turnPlan } from './rig/turn-plan.ts';
import { verdictMessageOf } from './rig/verdict.ts';
import type { RunningTurn } from './turn.ts';

/** Why something was not done, as data. */
export interface Refusal {
  readonly code: string;
  readonly words: string;
  readonly next: string;
}

interface OpenRig {
  readonly record: Rig;
  readonly sources: readonly StoredSource[];
  readonly runtime: RigRuntime;
}

interface OpenQuestion {
  readonly view: QuestionView;
  /** Id the engine knows it by. */
  readonly engine: string;
}

/** A cue that is to sound, and which engine waits to hear when. */
interface PendingCue {
  readonly rig: string;
  readonly engine: string;
}

/** A verdict stands on the wall for so long, ms. */
const shownFor = 30_000;

/**
 * Everything live of one lab: open rigs, the open day, who is connected and who holds the controls. Outputs of the engines come
 * in here and leave as messages; what is to be kept goes to the store, one thing after the other.
 */
export class LiveLab implements RigListener {
  readonly lab: OpenLab;
  readonly ports: LivePorts;
  readonly hub = new Hub();
  readonly controls = new Controls();
  readonly alerts = new Alerts();
  readonly awake = new KeepAwake();
  readonly rigs = new Map<string, OpenRig>();
  readonly turns = new Map<string, RunningTurn>();
  readonly questions = new Map<string, OpenQuestion>();
  readonly cues = new Map<string, PendingCue>();
  readonly verdicts = new Map<string, { readonly verdict: LiveVerdict; readonly at: number }>();
  /** Turns that are armed as soon as the room is free. */
  readonly wantsArming = new Set<string>();
  loaded: LoadedDay | undefined;
  blank = false;
  /** Makes an entry for someone nobody planned; set where a day runs without a person at the screen. */
  walkIn: (() => Promise<string | undefined>) | undefined;
  readonly #corrections = new Map<string, Correction>();
  readonly #kept = new Map<string, { readonly trial: string; readonly origin: string }>();
  #work: Promise<void> = Promise.resolve();
  #waiting = 0;
  #sounds = 0;
  #lastEnvelope = new Map<string, number>();
  #timer: NodeJS.Timeout | undefined;

  constructor(lab: OpenLab, ports: LivePorts) {
    this.lab = lab;
    this.ports = ports;
  }

  /** Begins the slow heartbeat: confirmations, rests, who is next. */
  start(): void {
    this.#timer ??= setInterval(() => this.#beat(), 250).unref();
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#timer = undefined;
    this.hub.closeAll('the station is closing');
    for (const { runtime } of this.rigs.values()) await runtime.stop();
    await this.#work;
    this.awake.release();
  }

  // ---- who is connected --------------------------------------------------------------------------------------------

  join(device: Device, socket: Socket): Client {
    const client: Client = new Client(device, socket, () => this.snapshot(device));
    this.hub.add(client);
    const { id, name, role } = device;
    void this.enqueue('A device', async () => {
      await this.lab.store.devices.seen({ id, name, role }, stationActor);
    });
    return client;
  }

  leave(client: Client): void {
    this.hub.remove(client);
  }

  // ---- what is kept -------------------------------------------------------------------------------------------------

  /** Does one thing after the other; a failure is told and does not stop the next. */
  enqueue(what: string, act: () => Promise<void>): Promise<void> {
    this.#waiting++;
    this.#work = this.#work
      .then(act)
      .catch((error: unknown) => {
        this.raise({
          severity: 'alarm',
          code: 'not-kept',
          words: `${what} could not be kept: ${error instanceof Error ? error.message : String(error)}`,
          next: 'The samples are safe in the journal. Check disk and database; at the next start it is tried again.',
        });
      })
      .finally(() => {
        this.#waiting--;
      });
    return this.#work;
  }

  /** Reads the open day again and tells everyone. */
  async refresh(): Promise<void> {
    const day = (await this.lab.store.days.list()).find(({ status }) => status === 'open');
    this.loaded = day === undefined ? undefined : await loadDay(this.lab, day);
    this.tellDay();
  }

  // ---- what is shown ------------------------------------------------------------------------------------------------

  tell(message: Message, weight: Weight): void {
    this.hub.tell(message, weight);
  }

  day(): Day | undefined {
    return this.loaded === undefined ? undefined : dayView(this.loaded, this.moment());
  }

  moment(): Moment {
    const dayRigs = this.loaded?.day.rigs ?? [];
    return {
      now: Date.parse(this.ports.clock.wall()),
      onRig: new Map([...this.turns].map(([rig, { view }]) => [rig, view.entry])),
      rigs: [...this.rigs.keys()].filter((id) => dayRigs.length === 0 || dayRigs.includes(id)),
      rigNames: new Map([...this.rigs].map(([id, { record }]) => [id, record.name])),
      secondsSince: ({ origin, endSample }) => {
        const rig = [...this.rigs.values()].find(({ runtime }) => runtime.journal.capture === origin.capture);
        if (rig !== undefined) return (rig.runtime.next - endSample) / rig.runtime.rate;
        return (Date.parse(this.ports.clock.wall()) - Date.parse(origin.endedAt)) / 1000;
      },
      awake: this.awake.state,
    };
  }

  tellDay(): void {
    const day = this.day();
    this.tell({ type: 'day', ...(day === undefined ? {} : { day }) } as Message, 'state');
    this.tellWall();
  }

  tellWall(): void {
    this.hub.tellWalls(this.wall(), 'state');
  }

  wall() {
    const now = Date.parse(this.ports.clock.wall());
    const inputs = [...this.rigs.values()].map(({ record, runtime }) => {
      const shown = this.verdicts.get(record.id);
      return {
        rig: record,
        runtime,
        turn: this.turns.get(record.id),
        verdict: shown !== undefined && now - shown.at < shownFor ? shown.verdict : undefined,
      };
    });
    return wallState(inputs, this.day(), this.blank, (entry) => this.wallNameOf(entry));
  }

  wallNameOf(entry: string): string {
    const found = this.loaded?.entries.find((one) => one.entry.id === entry);
    if (found === undefined) return '';
    const { person } = found;
    switch (this.loaded?.settings.wallNames) {
      case 'name':
        return nameOf(person);
      case 'code':
        return person.code;
      default:
        return person.givenName;
    }
  }

  /** A rig was closed: nothing of it stands any more. */
  forgetRig(id: string): void {
    this.turns.delete(id);
    this.wantsArming.delete(id);
    this.verdicts.delete(id);
    for (const [question, { view }] of this.questions) if (view.rig === id) this.questions.delete(question);
    for (const alert of this.alerts.clearRig(id)) this.tell({ type: 'alert-over', id: alert } as Message, 'state');
    this.tellDay();
  }

  rigView({ record, runtime, sources }: OpenRig): RigView {
    return rigView(record, runtime, sources, this.ports.clock);
  }

  tellFloor(rig: string): void {
    const open = this.rigs.get(rig);
    if (open === undefined) return;
    this.tell({ type: 'phase', floor: floorView(open.runtime, this.turns.get(rig)) } as Message, 'state');
    this.tellWall();
  }

  /** The first message of a client, and the one after it was behind. */
  snapshot(device: Device): Message {
    if (device.role === 'wall') return this.wall();
    const { clock } = this.ports;
    const day = this.day();
    return {
      type: 'snapshot',
      protocol: liveProtocol,
      clock: { monotonic: millisecondsOf(clock.monotonic()), wall: clock.wall() },
      lab: this.lab.id,
      you: { device: device.id, name: device.name, role: device.role },
      controls: this.controls.view,
      ...(day === undefined ? {} : { day }),
      rigs: [...this.rigs.values()].map((one) => this.rigView(one)),
      floors: [...this.rigs.values()].map(({ record, runtime }) => floorView(runtime, this.turns.get(record.id))),
      alerts: this.alerts.list,
      questions: [...this.questions.values()].map(({ view }) => view),
      verdicts: [...this.verdicts.values()].map(({ verdict }) => verdict),
    } as Message;
  }

  raise(alert: Omit<AlertView, 'id' | 'count' | 'rig'> & { readonly rig?: string }): void {
    this.tell({ type: 'alert', alert: this.alerts.raise(alert) } as Message, 'state');
  }

  clear(code: string, rig?: string): void {
    const id = this.alerts.clear(code, rig);
    if (id !== undefined) this.tell({ type: 'alert-over', id } as Message, 'state');
  }

  // ---- what rigs tell -----------------------------------------------------------------------------------------------

  changed(runtime: RigRuntime): void {
    const open = this.rigs.get(runtime.id);
    if (open !== undefined) this.tell({ type: 'rig', rig: this.rigView(open) } as Message, 'state');
  }

  /** Samples came: the curve goes out at screen rate. */
  tick(runtime: RigRuntime): void {
    const now = millisecondsOf(this.ports.clock.monotonic());
    if (now - (this.#lastEnvelope.get(runtime.id) ?? 0) < 33) return;
    this.#lastEnvelope.set(runtime.id, now);
    const run = runtime.envelope?.take();
    if (run === undefined) return;
    this.tell({ type: 'envelope', rig: runtime.id, unit: 'N', ...run } as Message, 'moment');
    const above = this.blank ? undefined : aboveStanding(run, this.turns.get(runtime.id), runtime.phase);
    if (above === undefined) return;
    const { first, bucket, rate } = run;
    this.hub.tellWalls({ type: 'wall-envelope', rig: runtime.id, first, bucket, rate, above } as Message, 'moment');
  }

  output(runtime: RigRuntime, output: EngineOutput): void {
    const rig = runtime.id;
    const turn = this.#starting.get(rig) ?? this.turns.get(rig);
    switch (output.kind) {
      case 'phase':
        if (turn !== undefined) {
          const target = output.effort?.target;
          if (target === undefined) delete turn.target;
          else turn.target = { low: target.low, high: target.high };
        }
        this.#room(rig, runtime);
        this.tellFloor(rig);
        if (output.phase === 'rest' || output.phase === 'waiting') this.#soon();
        return;
      case 'guidance':
        this.tellFloor(rig);
        if (output.code === 'relax' || output.code === 'stop') this.sound(rig, output.code, output.words);
        return;
      case 'state':
        this.tellFloor(rig);
        return;
      case 'countdown':
        if (turn !== undefined && output.of === 'stand-still') {
          const seconds = runtime.rules()?.still.seconds ?? 3;
          turn.stillProgress = Math.max(0, Math.min(1, 1 - output.seconds / seconds));
        }
        this.#countdown(rig, output.of, output.seconds, output.restarted);
        return;
      case 'count':
        this.#countdown(rig, 'count', output.number, false);
        this.sound(rig, countSounds[output.number] ?? 'attention', String(output.number));
        return;
      case 'count-void':
        this.sound(rig, 'attention', 'Stop. We count again');
        return;
      case 'cue-request':
        this.#cue(runtime, output.cue, output.words);
        return;
      case 'weighing':
        if (turn !== undefined) turn.weighing = output.weighing;
        this.tellFloor(rig);
        return;
      case 'zero':
        this.changed(runtime);
        return;
      case 'verdict':
        this.#verdict(runtime, output);
        return;
      case 'trial-reviewed': {
        const { trial } = output;
        void this.enqueue('The review of an effort', () => this.#review(runtime, trial));
        return;
      }
      case 'alert':
        this.raise({
          severity: output.code === 'signal-back' ? 'note' : 'warning',
          code: output.code,
          words: output.words,
          next: 'Look at the rig.',
          rig,
        });
        if (output.code === 'signal-back') this.clear('signal-lost', rig);
        return;
      case 'question': {
        const view: QuestionView = {
          id: `${runtime.journal.capture}-${output.id}`,
          rig,
          ...(turn === undefined ? {} : { turn: turn.view.id }),
          code: output.code,
          words: this.#questionWords(output, turn),
          choices: output.answers.map((id) => ({ id, words: answerWords[id] ?? id })),
        };
        this.questions.set(view.id, { view, engine: output.id });
        this.tell({ type: 'question', question: view } as Message, 'state');
        return;
      }
      case 'question-closed': {
        const id = `${runtime.journal.capture}-${output.id}`;
        this.questions.delete(id);
        this.tell({ type: 'question-over', id, choice: output.answer } as Message, 'state');
        return;
      }
      case 'turn-ended':
        this.turns.delete(rig);
        this.wantsArming.delete(rig);
        this.tellDay();
        this.#soon();
        return;
      case 'live': {
        const { total, left, right, sample } = output;
        this.tell(
          {
            type: 'live',
            rig,
            sample,
            total,
            ...(left === undefined ? {} : { left }),
            ...(right === undefined ? {} : { right }),
            unit: 'N',
            channels: runtime.channelsNow(),
          } as Message,
          'moment',
        );
        return;
      }
    }
  }

  #questionWords(output: Extract<EngineOutput, { kind: 'question' }>, turn: RunningTurn | undefined): string {
    return output.code === 'is-this-the-athlete' && turn !== undefined
      ? `Is this ${turn.view.person.name}?`
      : output.words;
  }

  #countdown(rig: string, of: string, left: number, restarted: boolean): void {
    const message = { type: 'countdown', rig, of, left, restarted } as Message;
    const turn = this.turns.get(rig)?.view.id;
    this.tell(turn === undefined ? message : ({ ...message, turn } as Message), 'moment');
    if (!this.blank) this.hub.tellWalls(message, 'moment');
  }

  /** One sound in the room; gone after a second. */
  sound(rig: string, sound: string, words: string, id = `sound-${++this.#sounds}`): void {
    const turn = this.turns.get(rig);
    const at = millisecondsOf(this.ports.clock.monotonic());
    const cue = { type: 'cue', id, rig, sound, words, at, expires: 1000 };
    this.tell({ ...cue, turn: turn?.view.id ?? '' } as Message, 'moment');
    this.hub.tellWalls(cue as Message, 'moment');
    this.ports.sound?.(sound);
  }

  /** A cue is due. Where no device is there to say when it sounded, the station itself gives it, now. */
  #cue(runtime: RigRuntime, engine: string, words: string): void {
    const id = `${runtime.journal.capture}-${engine}`;
    this.cues.set(id, { rig: runtime.id, engine });
    this.sound(runtime.id, 'go', words, id);
    const heard = [...this.hub.clients].some(
      ({ device, offset }) => device.role === 'operator' && offset !== undefined,
    );
    if (!heard) {
      this.cues.delete(id);
      queueMicrotask(() => runtime.cueSounded(engine, undefined));
    }
  }

  // ---- one cue at a time in the room --------------------------------------------------------------------------------

  /** Another rig is between the start of its count and the end of its pull. */
  roomBusy(rig: string): boolean {
    return [...this.rigs.values()].some(
      ({ record, runtime }) => record.id !== rig && (runtime.phase === 'cue' || runtime.phase === 'pull'),
    );
  }

  /** Arms who waits for it as soon as nobody else counts or pulls, and disarms the others when somebody does. */
  #room(rig: string, runtime: RigRuntime): void {
    if (runtime.phase === 'cue') {
      for (const other of this.rigs.values()) {
        if (other.record.id === rig || !other.runtime.armed) continue;
        this.wantsArming.add(other.record.id);
        this.order(other.runtime, { order: 'disarm' });
      }
    }
    queueMicrotask(() => this.armWaiting());
  }

  armWaiting(): void {
    for (const rig of this.wantsArming) {
      const open = this.rigs.get(rig);
      if (open === undefined || open.runtime.armed || this.roomBusy(rig)) continue;
      if (!['stand-still', 'set-up', 'ready', 'rest'].includes(open.runtime.phase)) continue;
      if (this.order(open.runtime, { order: 'arm' }) === undefined && !this.loaded?.settings.handsFree)
        this.wantsArming.delete(rig);
    }
  }

  /** Gives an order that is meant for this very moment. @returns why it was refused */
  order(runtime: RigRuntime, order: Order): Refusal | undefined {
    const at = this.ports.clock.monotonic();
    return refusalIn(runtime.order(order, { at, expires: (at + 1_000_000_000n) as MonotonicNanoseconds }));
  }

  // ---- efforts ------------------------------------------------------------------------------------------------------

  closed(runtime: RigRuntime, closing: Closing): void {
    const turn = this.turns.get(runtime.id);
    if (turn === undefined) return;
    const { closed } = closing;
    const key = keyOf(runtime, closed.person, closed.trial);
    const turnView = { ...turn.view, effort: effortOf(closed, turn) };
    void this.enqueue('An effort', async () => {
      if (!(await runtime.journal.settled()))
        this.raise({
          severity: 'warning',
          code: 'kept-before-journal',
          words: 'The journal could not confirm this effort yet; its recording was kept all the same.',
          next: 'Look at the disk before the next effort.',
          rig: runtime.id,
        });
      const method = runtime.methodOf(turn.view.test);
      if (method === undefined) throw new Error('the test has no method');
      const kept = await keepTrial(
        this.lab,
        {
          ...closing,
          capture: runtime.journal.capture,
          rig: runtime.id,
          person: turn.view.person.id,
          protocol: turn.entry.protocol,
          method,
          setup: turn.entry.entry.setup,
          entry: turn.entry.entry,
        },
        stationActor,
      );
      this.#kept.set(key, { trial: kept.trial, origin: kept.origin });
      const now = this.ports.clock.monotonic();
      const verdict = verdictMessageOf({
        rig: runtime.id,
        turn: turnView,
        closed,
        kept,
        history: turn.history,
        correction: this.#corrections.get(key),
        tookMs: millisecondsOf(now) - millisecondsOf(closing.detected),
      });
      this.verdicts.set(runtime.id, { verdict, at: Date.parse(this.ports.clock.wall()) });
      this.tell({ type: 'verdict', verdict } as Message, 'kept');
      await this.refresh();
    }).then(() => this.#soon());
  }

  #verdict(runtime: RigRuntime, output: Extract<EngineOutput, { kind: 'verdict' }>): void {
    const turn = this.turns.get(runtime.id);
    if (turn === undefined) return;
    const key = keyOf(runtime, turn.view.person.id, output.trial);
    if (output.correction !== undefined) this.#corrections.set(key, output.correction);
    const { decided } = output;
    if (decided === undefined) return;
    void this.enqueue('A decision', async () => {
      const kept = this.#kept.get(key);
      if (kept === undefined) return;
      const actor: Actor = { by: decided.by, station: 'station' };
      await this.lab.store.decisions.add(
        decided.decision === 'counts'
          ? { trial: kept.trial, kind: 'overrule-counts', payload: {}, reason: decided.reason }
          : { trial: kept.trial, kind: 'exclude', payload: { category: 'live' }, reason: decided.reason },
        actor,
      );
      await this.refresh();
    });
  }

  /** The trial again, with the mean of the empty plates after the turn. */
  async #review(runtime: RigRuntime, trial: Extract<EngineOutput, { kind: 'trial-reviewed' }>['trial']): Promise<void> {
    const kept = this.#kept.get(keyOf(runtime, trial.person, trial.trial));
    if (kept === undefined) return;
    const origin = await this.lab.store.origins.ofTrial(kept.trial);
    if (origin === undefined) return;
    await keepReview(this.lab, origin, trial);
    await this.refresh();
  }

  /** A pain stop is kept as a gate of the person, so that it holds after a restart too. */
  recordPain(turn: RunningTurn, device: Device, note: string): void {
    const today = this.loaded?.day.date ?? this.ports.clock.wall().slice(0, 10);
    void this.enqueue('A pain stop', async () => {
      await this.lab.store.gates.add(
        {
          person: turn.view.person.id,
          kind: 'pain-stop',
          granted: true,
          limb: 'both',
          from: today,
          until: today,
          note,
        },
        await this.lab.actor(device.by),
      );
      await this.refresh();
    });
  }

  // ---- who is next --------------------------------------------------------------------------------------------------

  #soon(): void {
    setImmediate(() => void this.beginNext());
  }

  #beginning = false;

  /** Puts whoever is next on each rig that is free, on a day that runs by itself. */
  async beginNext(): Promise<void> {
    if (this.#beginning || this.loaded?.settings.handsFree !== true) return;
    this.#beginning = true;
    try {
      const moment = this.moment();
      const free = moment.rigs.filter((id) => this.isFree(id));
      const candidates = candidatesOf(this.loaded, moment).filter(({ entry }) => !this.#busyElsewhere(entry, free));
      const chosen = new Set<string>();
      for (const choice of chooseNext(free, candidates, moment.now)) {
        if (choice.at > moment.now || this.turns.get(choice.rig)?.view.entry === choice.entry) continue;
        chosen.add(choice.rig);
        await this.begin(choice.rig, choice.entry);
      }
      for (const rig of free) {
        if (chosen.has(rig) || this.turns.has(rig) || this.walkIn === undefined || this.#waiting > 0) continue;
        const entry = await this.walkIn();
        if (entry !== undefined) await this.begin(rig, entry);
      }
    } finally {
      this.#beginning = false;
    }
  }

  /** Nobody has a turn there, or the one who has it rests and everything of the effort is kept. */
  isFree(rig: string): boolean {
    const runtime = this.rigs.get(rig)?.runtime;
    if (runtime === undefined || runtime.state !== 'measuring' || this.#waiting > 0 || runtime.journal.failed)
      return false;
    return !this.turns.has(rig) || (runtime.phase === 'rest' && !runtime.held);
  }

  #busyElsewhere(entry: string, free: readonly string[]): boolean {
    return [...this.turns].some(([rig, { view }]) => view.entry === entry && !free.includes(rig));
  }

  /** Puts an entry on a rig. @returns why it was refused */
  async begin(rig: string, entryId: string): Promise<Refusal | undefined> {
    const open = this.rigs.get(rig);
    const entry = this.loaded?.entries.find((one) => one.entry.id === entryId);
    if (open === undefined || entry === undefined || this.loaded === undefined) return refusals.unknown;
    const refused = this.#mayBegin(rig, entry);
    if (refused !== undefined) return refused;
    const history = await historyOf(this.lab, entry.person.id, entry.entry.test);
    const { runtime } = open;
    const known = runtime.trialsOf(entry.person.id);
    const plan = turnPlan({
      person: entry.person.id,
      plan: entry.plan,
      done: entry.done,
      history,
      allowed: entry.allowed,
      minor: entry.minor,
      painStopped: entry.painStopped,
      knownToEngine: {
        counting: known.filter(({ effort, verdict }) => effort === 'maximal' && verdict === 'counts').length,
        submaximal: known.filter(({ effort }) => effort === 'submaximal').length,
      },
    });
    const before = this.turns.get(rig);
    // The engine answers at once, and what it says must find the turn.
    const next = entry.remaining[0] ?? { kind: 'maximal' as const };
    const turn: RunningTurn = {
      view: {
        id: `${runtime.journal.capture}-${entry.entry.test}-${runtime.turnOf(entry.entry.test) + 1}`,
        entry: entry.entry.id,
        person: { id: entry.person.id, name: nameOf(entry.person), code: entry.person.code },
        test: entry.entry.test,
        effort: next,
        words: effortWords(entry.plan, entry.done, next),
      },
      entry,
      history,
      wallName: this.wallNameOf(entry.entry.id),
      stillProgress: 0,
    };
    if (runtime.phase === 'cue' || runtime.phase === 'pull') return refusals.busy;
    if (runtime.journal.failed) return refusals.journal;
    const at = this.ports.clock.monotonic();
    const expires = (at + 1_000_000_000n) as MonotonicNanoseconds;
    this.#starting.set(rig, turn);
    const outputs = runtime.order({ order: 'next-athlete', next: plan }, { at, expires }, entry.entry.test);
    this.#starting.delete(rig);
    const refusal = refusalIn(outputs);
    if (refusal !== undefined) {
      if (before !== undefined) this.turns.set(rig, before);
      return refusal;
    }
    this.turns.set(rig, turn);
    this.verdicts.delete(rig);
    if (this.loaded.settings.handsFree) this.wantsArming.add(rig);
    this.tellFloor(rig);
    this.tellDay();
    this.armWaiting();
    return undefined;
  }

  readonly #starting = new Map<string, RunningTurn>();

  #mayBegin(rig: string, entry: LoadedEntry): Refusal | undefined {
    if (entry.allowed === 'nothing') return { ...refusals.blocked, words: gateWords(entry) };
    const handsFree = this.loaded?.settings.handsFree === true;
    if (entry.allowed === 'after-answers' && !handsFree) return { ...refusals.answers, words: gateWords(entry) };
    if (entry.remaining.length === 0) return refusals.done;
    const elsewhere = [...this.turns].find(([id, { view }]) => id !== rig && view.entry === entry.entry.id);
    if (elsewhere !== undefined) return refusals.elsewhere;
    const rest = restingOf(entry, this.moment());
    const last = entry.done.findLast(({ origin }) => origin !== undefined)?.origin;
    const known = [...this.rigs.values()].some(({ runtime }) => runtime.journal.capture === last?.capture);
    // The engine minds the rests of its own capture; those from before a restart are minded here.
    if (rest !== undefined && !known && rest.elapsed < rest.minimum) return refusals.resting;
    return undefined;
  }

  /** Is anything under way that must not be cut off? */
  effortUnderWay(rig?: string): boolean {
    return [...this.rigs.values()].some(
      ({ record, runtime }) => (rig === undefined || record.id === rig) && ['cue', 'pull'].includes(runtime.phase),
    );
  }

  // ---- heartbeat ----------------------------------------------------------------------------------------------------

  #beats = 0;

  #beat(): void {
    this.#beats++;
    for (const { record, runtime } of this.rigs.values()) {
      const { samples, bytes, age } = runtime.journal.confirmed();
      this.tell(
        {
          type: 'confirmed',
          rig: record.id,
          recording: runtime.state === 'measuring' && age !== undefined && age < 1000,
          samples,
          bytes,
          age: age ?? 0,
        } as Message,
        'moment',
      );
      if (this.#beats % 8 === 0) this.changed(runtime);
    }
    this.armWaiting();
    void this.beginNext();
    // Rests count down by themselves on the screens; the order is told again now and then.
    if (this.#beats % 20 === 0 && this.loaded !== undefined) this.tellDay();
  }
}

const countSounds: Readonly<Record<number, string>> = { 3: 'three', 2: 'two', 1: 'one' };

const answerWords: Readonly<Record<string, string>> = {
  yes: 'Yes',
  no: 'No',
  'take-it': 'Take this as zero',
  'measure-again': 'Measure again',
  counts: 'It counts',
  'does-not-count': 'It does not count',
};

const keyOf = (runtime: RigRuntime, person: string, trial: number) => `${runtime.journal.capture} ${person} ${trial}`;

function effortOf(closed: Closing['closed'], turn: RunningTurn): RunningTurn['view']['effort'] {
  if (closed.effort === turn.view.effort.kind) return turn.view.effort;
  return { kind: closed.effort, ...(closed.target === undefined ? {} : { share: closed.target.share }) };
}

function gateWords({ gates }: LoadedEntry): string {
  return gates
    .filter(({ effect }) => effect === 'blocks' || effect === 'asks')
    .map(({ words }) => words)
    .join(' ');
}

/** The refusal among an engine's outputs. */
export function refusalIn(outputs: readonly EngineOutput[]): Refusal | undefined {
  const refused = outputs.find((one) => one.kind === 'refused');
  return refused?.kind === 'refused'
    ? { code: refused.code, words: refused.words, next: 'Look at the screen and decide again.' }
    : undefined;
}

export const refusals = {
  unknown: { code: 'not-found', words: 'There is no such rig or entry.', next: 'Choose from the running order.' },
  busy: { code: 'not-now', words: 'An effort is under way on this rig.', next: 'Wait for its end, or stop it.' },
  blocked: { code: 'not-cleared', words: '', next: 'A named person has to lift it first.' },
  answers: { code: 'answers-needed', words: '', next: 'Ask the readiness questions first.' },
  done: { code: 'nothing-planned', words: 'Nothing is left to do for this person.', next: 'Choose someone else.' },
  elsewhere: { code: 'on-another-rig', words: 'This person is on another rig.', next: 'End that turn first.' },
  resting: { code: 'rest-not-over', words: 'The rest is not over.', next: 'Wait, or choose someone else.' },
  journal: {
    code: 'no-journal',
    words: 'Nothing can be recorded on this rig.',
    next: 'Free the disk and open the rig again.',
  },
  room: {
    code: 'room-busy',
    words: 'On another rig a count or a pull is under way; there is one cue at a time in the room.',
    next: 'Wait for its end.',
  },
} as const satisfies Record<string, Refusal>;
