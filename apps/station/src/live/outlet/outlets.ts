import { type EngineOutput, type SamplesPacket, type StreamNetwork, usualStreamNetwork } from '@sthene/capture';
import type { OutletSettings, RigOutlet as RigOutletView } from '@sthene/contract';
import type { LiveLab } from '../live-lab.ts';
import type { RigRuntime } from '../rig/rig-runtime.ts';
import { virtualPart } from '../rig/rig-view.ts';
import { QueryEar } from './query-ear.ts';
import { markOf, RigOutlet } from './rig-outlet.ts';
import { keepOutlet, keepRigOutlet, readOutlet, readRigOutlet, usualOutlet } from './settings.ts';

/** A rig whose offer is on. */
interface Offered {
  outlet: RigOutlet | undefined;
  problem: string | undefined;
  /** Whose code was told last. */
  turn: string | undefined;
}

const everywhere = '0.0.0.0';
const thisMachine = '127.0.0.1';

/**
 * What a lab offers to other programs as streams: nothing, unless a rig's offer was switched on; to this machine alone, unless the lab lets the
 * network in. Forces are told as on the screens: where those may not show the weight, values are no numbers.
 */
export class Outlets {
  readonly #live: LiveLab;
  readonly #rigs = new Map<string, Offered>();
  /** Rigs whose offer is on and whose channels are not known yet. */
  readonly #waiting = new Set<string>();
  #settings: OutletSettings = usualOutlet;
  #ear: Promise<QueryEar> | undefined;
  #work: Promise<unknown> = Promise.resolve();

  constructor(live: LiveLab) {
    this.#live = live;
  }

  get settings(): OutletSettings {
    return this.#settings;
  }

  /** Identities of what is offered here, so that a search does not offer it back. */
  get uids(): ReadonlySet<string> {
    return new Set(this.#offers().map(({ info }) => info.uid));
  }

  /** A rig was opened: its offer begins with its samples, if it is on. */
  opened(runtime: RigRuntime): Promise<void> {
    return this.#soon(async () => {
      if (runtime.files) return;
      this.#settings = await readOutlet(this.#live.lab);
      if (await readRigOutlet(this.#live.lab, runtime.id)) await this.#begin(runtime);
    });
  }

  closed(rig: string): Promise<void> {
    return this.#soon(() => this.#end(rig));
  }

  stop(): Promise<void> {
    return this.#soon(async () => {
      for (const rig of [...this.#rigs.keys()]) await this.#end(rig);
    });
  }

  samples(runtime: RigRuntime, packet: SamplesPacket): void {
    if (this.#waiting.delete(runtime.id)) void this.#soon(() => this.#begin(runtime));
    const outlet = this.#rigs.get(runtime.id)?.outlet;
    if (outlet === undefined) return;
    const time = runtime.stream.timeOf(packet.first) ?? Number(packet.at) / 1e9;
    outlet.samples(
      packet,
      { time, rate: runtime.stream.rateNow },
      this.#live.curves.tellingOf(runtime).forces === 'total',
    );
  }

  output(runtime: RigRuntime, output: EngineOutput): void {
    const offered = this.#rigs.get(runtime.id);
    const outlet = offered?.outlet;
    if (offered === undefined || outlet === undefined) return;
    if (output.kind === 'zero') outlet.zero(output.zeros);
    const mark = markOf(output);
    if (mark === undefined) return;
    const time = runtime.stream.timeOf(mark.sample) ?? this.#seconds();
    if (output.kind === 'phase') this.#tellWho(runtime, offered, time);
    outlet.mark(mark.text, time);
  }

  /** The code of who is on the rig, once a turn, where the lab allows it. */
  #tellWho(runtime: RigRuntime, offered: Offered, time: number): void {
    const turn = this.#live.starting.get(runtime.id) ?? this.#live.turns.get(runtime.id);
    if (turn?.view.id === offered.turn) return;
    offered.turn = turn?.view.id;
    const code = turn?.view.person.code ?? '';
    if (this.#settings.athleteCode && code !== '') offered.outlet?.mark(`athlete ${code}`, time);
  }

  async change(settings: OutletSettings, by: string): Promise<OutletSettings> {
    await keepOutlet(this.#live.lab, settings, by);
    await this.#soon(async () => {
      const moved = settings.network !== this.#settings.network;
      this.#settings = settings;
      if (!moved) return;
      // Whoever reads from outside is cut off at once.
      const open = [...this.#rigs.keys()];
      for (const rig of open) await this.#end(rig);
      for (const rig of open) {
        const runtime = this.#live.rigs.get(rig)?.runtime;
        if (runtime !== undefined) await this.#begin(runtime);
      }
    });
    return settings;
  }

  async switch(rig: string, on: boolean, by: string): Promise<void> {
    await keepRigOutlet(this.#live.lab, rig, on, by);
    await this.#soon(async () => {
      const runtime = this.#live.rigs.get(rig)?.runtime;
      if (!on) await this.#end(rig);
      else if (runtime !== undefined && !runtime.files && !this.#rigs.has(rig)) await this.#begin(runtime);
    });
  }

  async load(): Promise<OutletSettings> {
    this.#settings = await readOutlet(this.#live.lab);
    return this.#settings;
  }

  async view(rig: string): Promise<RigOutletView> {
    const on = await readRigOutlet(this.#live.lab, rig);
    const offered = this.#rigs.get(rig);
    return {
      on,
      streams: (offered?.outlet?.offers ?? []).map(({ info, receivers }) => ({
        ...{ name: info.name, type: info.type, sourceId: info.sourceId, rate: info.rate, receivers },
        channels: info.channels.map(({ label }) => label),
        port: info.dataPort,
      })),
      ...(offered?.problem === undefined ? {} : { problem: offered.problem }),
    };
  }

  async #begin(runtime: RigRuntime): Promise<void> {
    const { header } = runtime.stream;
    const open = this.#live.rigs.get(runtime.id);
    if (open === undefined) return;
    if (header === undefined) {
      this.#waiting.add(runtime.id);
      return;
    }
    const offered: Offered = { outlet: undefined, problem: undefined, turn: undefined };
    this.#rigs.set(runtime.id, offered);
    const host = this.#settings.network ? everywhere : thisMachine;
    const network = this.#network();
    try {
      const played = virtualPart(open.sources).virtual !== undefined;
      offered.outlet = await RigOutlet.open({
        rig: runtime.id,
        name: played ? `${open.record.name} (simulated)` : open.record.name,
        ...{ header, zeros: runtime.stream.zeros, network, host },
        seconds: () => this.#seconds(),
      });
      this.#ear ??= QueryEar.open(network, host, () => this.#offers()).catch((error: unknown) => {
        this.#ear = undefined;
        throw error;
      });
      await this.#ear;
    } catch (error) {
      offered.problem = error instanceof Error ? error.message : String(error);
      await offered.outlet?.close();
      offered.outlet = undefined;
    }
  }

  async #end(rig: string): Promise<void> {
    const offered = this.#rigs.get(rig);
    this.#rigs.delete(rig);
    this.#waiting.delete(rig);
    await offered?.outlet?.close();
    if (this.#offers().length > 0) return;
    const ear = this.#ear;
    this.#ear = undefined;
    await ear?.then((one) => one.close());
  }

  #offers() {
    return [...this.#rigs.values()].flatMap(({ outlet }) => outlet?.offers ?? []);
  }

  #network(): StreamNetwork {
    return this.#live.ports.streamNetwork ?? usualStreamNetwork;
  }

  #seconds(): number {
    return Number(this.#live.ports.clock.monotonic()) / 1e9;
  }

  /** One thing after the other. */
  #soon<T>(act: () => Promise<T>): Promise<T> {
    const next = this.#work.then(act);
    this.#work = next.catch(() => undefined);
    return next;
  }
}
