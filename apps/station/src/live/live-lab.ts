import { type EngineOutput, isEffort, type Order, type Packet, type SamplesPacket } from '@sthene/capture';
import type { AlertView, FloorSettings, QuestionView, RigView } from '@sthene/contract';
import type { MonotonicNanoseconds } from '@sthene/core';
import type { Rig, StoredSource } from '@sthene/store';
import { actingDevice } from '../access/caller.ts';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import { VideoKeeping } from '../video/keeping.ts';
import { Videos } from '../video/videos.ts';
import { Alerts } from './alerts.ts';
import { KeepAwake } from './awake.ts';
import { dateOf, millisecondsOf } from './clock.ts';
import { Controls } from './controls.ts';
import { cueByStation, type PendingCue } from './cue-heard.ts';
import { Curves } from './curves.ts';
import { type LoadedDay, loadDay } from './day/loaded.ts';
import { Efforts } from './efforts.ts';
import { keepBlank, usualSettings } from './floor-settings.ts';
import { Guardian } from './guardian.ts';
import { Client, type Device, type Message, type Socket, type Weight } from './hub/client.ts';
import { Hub } from './hub/hub.ts';
import { NextUp } from './next-up.ts';
import { Outlets } from './outlet/outlets.ts';
import { takeOutput } from './outputs.ts';
import type { LivePorts } from './ports.ts';
import { type Refusal, refusalIn } from './refusals.ts';
import type { Closing, RigListener } from './rig/rig-options.ts';
import type { RigRuntime } from './rig/rig-runtime.ts';
import { virtualPart } from './rig/rig-view.ts';
import { isSilent } from './rig/rig-words.ts';
import { checkStanding, standingView } from './rig-check/standing.ts';
import { Room } from './room.ts';
import { weightMayShow } from './telling.ts';
import type { RunningTurn } from './turn.ts';
import { Views } from './views.ts';

export interface OpenRig {
  readonly record: Rig;
  readonly sources: readonly StoredSource[];
  readonly runtime: RigRuntime;
}

/**
 * Everything live of one lab: open rigs, the open day, who is connected and who holds the controls. What engines say comes in
 * here and leaves as messages; what is to be kept goes to the store, one thing after the other.
 */
export class LiveLab implements RigListener {
  readonly lab: OpenLab;
  readonly ports: LivePorts;
  readonly hub = new Hub();
  readonly controls = new Controls();
  readonly alerts = new Alerts();
  readonly awake = new KeepAwake();
  readonly room = new Room(this);
  readonly efforts = new Efforts(this);
  readonly nextUp = new NextUp(this);
  readonly outlets = new Outlets(this);
  readonly views = new Views(this);
  readonly curves = new Curves(this);
  readonly guardian: Guardian;
  readonly videos = new Videos(this);
  readonly videoKeeping = new VideoKeeping(this);
  readonly rigs = new Map<string, OpenRig>();
  readonly turns = new Map<string, RunningTurn>();
  /** Turns the engine is just being told of. */
  readonly starting = new Map<string, RunningTurn>();
  /** Cues that are to sound, and which engine waits to hear when. */
  readonly cues = new Map<string, PendingCue>();
  /** Open questions with the id their engine knows them by. */
  readonly questions = new Map<string, { readonly view: QuestionView; readonly engine: string }>();
  /** Answers questions where nobody is at a screen. */
  autoAnswer: ((question: QuestionView, runtime: RigRuntime) => string | undefined) | undefined;
  loaded: LoadedDay | undefined;
  /** How rigs stand with their checks, as last read. */
  readonly checks = new Map<string, NonNullable<RigView['check']>>();
  blank = false;
  settings: FloorSettings = usualSettings;
  /** Rigs whose plates send nothing. */
  readonly #silent = new Set<string>();
  #work: Promise<void> = Promise.resolve();
  #waiting = 0;
  #sounds = 0;
  #beats = 0;
  #timer: NodeJS.Timeout | undefined;

  constructor(lab: OpenLab, ports: LivePorts) {
    this.lab = lab;
    this.ports = ports;
    this.guardian = new Guardian(this);
    ports.watch?.(this);
  }

  /** Wall clock, ms. */
  get now(): number {
    return Date.parse(this.ports.clock.wall());
  }

  /** Waits until everything that was made so far is kept. */
  async settled(): Promise<void> {
    await this.#work;
  }

  get handsFree(): boolean {
    return this.loaded?.settings.handsFree === true;
  }

  /** Something waits to be kept. */
  get keeping(): boolean {
    return this.#waiting > 0;
  }

  /** Begins the slow heartbeat: confirmations, rests, who is next. */
  start(): void {
    this.#timer ??= setInterval(() => this.#beat(), 250).unref();
  }

  async stop(): Promise<void> {
    clearInterval(this.#timer);
    this.#timer = undefined;
    this.videoKeeping.stop();
    this.hub.closeAll('the station is closing');
    for (const { runtime } of this.rigs.values()) await runtime.stop();
    await this.outlets.stop();
    await this.#work;
    this.awake.release();
  }

  join(device: Device, socket: Socket): Client {
    const client: Client = new Client(device, socket, () => this.views.snapshot(device));
    this.hub.add(client);
    const { id, name, role } = device;
    void this.enqueue('A device', async () => {
      if (role === 'operator') client.account = (await this.lab.actor(device.by)).by;
      await this.lab.store.devices.seen({ id, name, role }, stationActor);
    });
    return client;
  }

  /** Someone whose device was taken off: the controls are free again, and nothing more is sent. */
  dismiss(client: Client): void {
    this.hub.remove(client);
    if (this.controls.release(client.device))
      this.tell({ type: 'controls', controls: this.controls.view } as Message, 'kept');
  }

  leave(client: Client): void {
    this.hub.remove(client);
  }

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
          next: 'The samples are safe in the journal. Check disk and database before going on; an effort that is missing is made again from the journal at the next start of the station.',
        });
      })
      .finally(() => {
        this.#waiting--;
        if (this.#waiting === 0) this.nextUp.soon();
      });
    return this.#work;
  }

  /** Reads the open day again and tells everyone. */
  async refresh(): Promise<void> {
    const day = (await this.lab.store.days.list()).find(({ status }) => status === 'open');
    this.loaded = day === undefined ? undefined : await loadDay(this.lab, day, this.loaded);
    this.tellDay();
  }

  /** Somebody judged efforts elsewhere, as on their own screens. It is kept: a day that cannot be read now is read with its next act. */
  judged(): void {
    if (this.loaded !== undefined)
      void this.settled()
        .then(() => this.refresh())
        .catch(() => {});
  }

  /** Gives an order that is meant for this very moment. @returns why it was refused */
  order(runtime: RigRuntime, order: Order): Refusal | undefined {
    return refusalIn(this.orderWith(runtime, order));
  }

  orderWith(runtime: RigRuntime, order: Order, test?: string): readonly EngineOutput[] {
    const at = this.ports.clock.monotonic();
    return runtime.order(order, { at, expires: (at + 1_000_000_000n) as MonotonicNanoseconds }, test);
  }

  /** Reads again how a rig stands with its checks. */
  async loadCheck(rig: string): Promise<NonNullable<RigView['check']>> {
    const check = standingView(await checkStanding(this.lab, rig, this.ports.clock.wall()));
    this.checks.set(rig, check);
    const open = this.rigs.get(rig);
    if (open !== undefined) this.changed(open.runtime);
    return check;
  }

  /** A count or a pull that must not be cut off. */
  effortUnderWay(rig?: string): boolean {
    return [...this.rigs.values()].some(
      ({ record, runtime }) =>
        (rig === undefined || record.id === rig) && (runtime.phase === 'cue' || isEffort(runtime.phase)),
    );
  }

  /** A pain stop is kept as a gate of the person, so that it holds after a restart too. */
  recordPain(turn: RunningTurn, device: Device, note: string): void {
    const { today } = this;
    const { id: person } = turn.view.person;
    const place = actingDevice();
    void this.enqueue('A pain stop', async () => {
      const signed = await this.lab.actor(device.by);
      const actor = { ...signed, station: place ?? signed.station };
      const stop = { person, kind: 'pain-stop', granted: true, limb: 'both', from: today, until: today, note } as const;
      await this.lab.store.gates.add(stop, actor);
      await this.refresh();
    });
  }

  // What rigs tell.

  changed(runtime: RigRuntime): void {
    const open = this.rigs.get(runtime.id);
    if (open !== undefined) this.tell({ type: 'rig', rig: this.views.rigView(open) } as Message, 'state');
    // A wall is told of a rig only that there is nothing to do on it.
    if (isSilent(runtime.stream) === this.#silent.has(runtime.id)) return;
    if (isSilent(runtime.stream)) this.#silent.add(runtime.id);
    else this.#silent.delete(runtime.id);
    this.tellWall();
  }

  output(runtime: RigRuntime, output: EngineOutput, test: string): void {
    takeOutput(this, runtime, output, test);
    this.outlets.output(runtime, output);
  }

  closed(runtime: RigRuntime, closing: Closing): void {
    this.efforts.closed(runtime, closing);
  }

  fileEnded(runtime: RigRuntime, packets: readonly Packet[]): void {
    this.efforts.fileEnded(runtime, packets);
  }

  samples(runtime: RigRuntime, packet: SamplesPacket): void {
    this.outlets.samples(runtime, packet);
  }

  tick(runtime: RigRuntime): void {
    this.curves.tick(runtime);
  }

  /** A rig was closed: nothing of it stands any more. */
  forgetRig(id: string): void {
    this.turns.delete(id);
    this.#silent.delete(id);
    this.room.waiting.delete(id);
    this.efforts.forget(id);
    for (const [question, { view }] of this.questions) if (view.rig === id) this.questions.delete(question);
    for (const alert of this.alerts.clearRig(id)) this.tell({ type: 'alert-over', id: alert } as Message, 'state');
    this.tellDay();
  }

  /** Today by the day that is open, else by the wall clock. */
  get today(): string {
    return this.loaded?.day.date ?? dateOf(this.ports.clock.wall());
  }

  /** Takes over what the lab allows, for turns under way too. */
  allow(settings: FloorSettings): void {
    this.settings = settings;
    for (const turn of this.turns.values())
      turn.weightShown = weightMayShow(settings.bodyWeight, turn.entry.person, this.today);
    for (const rig of this.rigs.keys()) this.tellFloor(rig);
    this.tellDay();
  }

  blankWall(blank: boolean): void {
    this.blank = blank;
    this.tell({ type: 'wall-blank', blank } as Message, 'state');
    this.tellWall();
    void this.enqueue('Whether the wall is blank', () => keepBlank(this, blank));
  }

  // What is shown.

  tell(message: Message, weight: Weight): void {
    this.hub.tell(message, weight);
  }

  tellDay(): void {
    const day = this.views.dayForFloors();
    this.tell({ type: 'day', ...(day === undefined ? {} : { day }) } as Message, 'state');
    this.tellWall();
  }

  tellWall(): void {
    // The forecast of a long day takes a while; where no wall hangs nobody needs it.
    if ([...this.hub.clients].some(({ device }) => device.role === 'wall'))
      this.hub.tellWalls(this.views.wall(), 'state');
  }

  tellFloor(rig: string): void {
    const open = this.rigs.get(rig);
    if (open === undefined) return;
    this.tell({ type: 'phase', floor: this.views.floor(open) } as Message, 'state');
    this.tellWall();
  }

  /** One sound in the room; gone after a second. */
  sound(rig: string, sound: string, words: string, id = `sound-${++this.#sounds}`): void {
    const turn = this.turns.get(rig);
    const at = millisecondsOf(this.ports.clock.monotonic());
    const cue = { type: 'cue', id, rig, sound, words, at, expires: 1000 };
    const spoken = this.rigs.get(rig)?.runtime.rules()?.cue.spoken;
    const told = { ...cue, ...(spoken === true ? { spoken } : {}), turn: turn?.view.id ?? '' };
    this.tell(told as object as Message, 'moment');
    this.hub.tellWalls(cue as Message, 'moment');
    this.ports.sound?.(sound);
  }

  /** A cue is due. Where no device is there to say when it sounded, the station itself gives it, now. */
  cue(runtime: RigRuntime, engine: string, words: string): void {
    const id = `${runtime.journal.capture}-${engine}`;
    this.cues.set(id, { rig: runtime.id, engine, at: this.ports.clock.monotonic() });
    this.sound(runtime.id, 'go', words, id);
    // Played faster than life no device can say in time when it sounded: its answer would be several times too late.
    const fast = (virtualPart(this.rigs.get(runtime.id)?.sources ?? []).virtual?.speed ?? 1) > 1;
    const heard =
      !fast && [...this.hub.clients].some(({ device, offset }) => device.role === 'operator' && offset !== undefined);
    if (!heard) queueMicrotask(() => cueByStation(this, id));
  }

  ask(view: QuestionView, engine: string): void {
    this.questions.set(view.id, { view, engine });
    this.tell({ type: 'question', question: view } as Message, 'state');
    const runtime = this.rigs.get(view.rig)?.runtime;
    const answer = runtime && this.autoAnswer?.(view, runtime);
    if (runtime === undefined || answer === undefined) return;
    queueMicrotask(() => this.order(runtime, { order: 'answer', question: engine, answer, by: stationActor.by }));
  }

  answered(id: string, choice: string): void {
    this.questions.delete(id);
    this.tell({ type: 'question-over', id, choice } as Message, 'state');
  }

  raise(alert: Omit<AlertView, 'id' | 'count' | 'rig'> & { readonly rig?: string }): void {
    this.tell({ type: 'alert', alert: this.alerts.raise(alert) } as Message, 'state');
  }

  clear(code: string, rig?: string): void {
    const id = this.alerts.clear(code, rig);
    if (id !== undefined) this.tell({ type: 'alert-over', id } as Message, 'state');
  }

  #beat(): void {
    this.#beats++;
    this.guardian.beat();
    for (const { record, runtime } of this.rigs.values()) {
      const { samples, bytes, age = 0 } = runtime.journal.confirmed();
      const recording = runtime.stream.state === 'measuring' && bytes > 0 && age < 1000;
      this.tell({ type: 'confirmed', rig: record.id, recording, samples, bytes, age } as Message, 'moment');
      if (this.#beats % 8 === 0) this.changed(runtime);
    }
    this.room.armWaiting();
    void this.nextUp.choose();
    // Rests count down by themselves on the screens; the order is told again now and then.
    if (this.#beats % 20 === 0 && this.loaded !== undefined) this.tellDay();
  }
}
