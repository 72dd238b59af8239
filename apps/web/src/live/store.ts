import { type CommandKind, type LabId, toOperator, toWall } from '@sthene/contract';
import { readPreference } from '../data/preferences.ts';
import { type CommandExtra, commandFor, type Unsent } from './commands.ts';
import { deviceIdentity, randomId } from './device.ts';
import { type Heard, soundedMessage } from './heard.ts';
import { Link, type LinkParts, liveAddress } from './link.ts';
import { browserParts, parsed } from './parts.ts';
import { type LiveState, linkLost, nothingYet, received } from './state.ts';
import { darkWall, type WallLive, wallLost, wallReceived } from './wall-state.ts';

/** What React needs to follow a store. */
class Followed<S> {
  #state: S;
  readonly #listeners = new Set<() => void>();

  constructor(state: S) {
    this.#state = state;
  }

  readonly current = (): S => this.#state;

  readonly follow = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  protected set(state: S): void {
    if (state === this.#state) return;
    this.#state = state;
    for (const listener of this.#listeners) listener();
  }
}

/** How long an answer to a command may take before the operator is told that none came, ms. */
const answerWithin = 1500;

/** The live day for an operator: state, and everything that can be asked of the station. */
export class LiveStore extends Followed<LiveState> {
  readonly device = deviceIdentity('operator');
  readonly link: Link<ReturnType<typeof toOperator.parse>>;
  readonly #pending = new Map<string, number>();

  constructor(lab: LabId) {
    super(nothingYet);
    const parts: LinkParts<ReturnType<typeof toOperator.parse>> = {
      ...browserParts,
      parse: parsed(toOperator),
      hello: () => {
        const by = readPreference('signed-as');
        return { lab, role: 'operator', device: this.device, ...(by ? { by } : {}) };
      },
      onMessage: (message, at) => {
        if (message.type === 'accepted' || message.type === 'refused') this.#settled(message.id);
        this.set(received(this.current(), message, at));
      },
      onLost: (at) => {
        for (const id of this.#pending.keys()) this.#settled(id);
        this.set(linkLost(this.current(), at));
      },
      onOtherVersion: () => this.set({ ...this.current(), link: 'other-version' }),
    };
    this.link = new Link(liveAddress(location), parts);
  }

  get holdsControls(): boolean {
    const { you, controls } = this.current();
    // A paired device is called by the id it was paired with.
    return controls.holder !== undefined && controls.holder === (you?.device ?? this.device.id);
  }

  /**
   * Asks for something to be done at a rig, now or not at all.
   *
   * @returns why it was not even sent
   */
  command(rig: string, kind: CommandKind, extra: CommandExtra = {}): Unsent | undefined {
    const floor = this.current().rigs[rig]?.floor;
    if (floor === undefined) return 'link-lost';
    const sender = { open: this.link.open, holdsControls: this.holdsControls, stationNow: this.link.stationNow };
    const command = commandFor(kind, floor, sender, randomId(), extra);
    if (typeof command === 'string') return command;
    this.link.send(command);
    this.#awaits(command.id);
    this.forgetRefusal();
    return undefined;
  }

  answer(question: string, choice: string): Unsent | undefined {
    if (!this.holdsControls) return 'no-controls';
    const id = randomId();
    if (!this.link.send({ type: 'answer', id, question, choice })) return 'link-lost';
    this.#awaits(id);
    return undefined;
  }

  takeControls(): void {
    this.link.send({ type: 'take-controls' });
  }

  sounded(cue: string, heard: Heard): void {
    this.link.send(soundedMessage(cue, heard));
  }

  forgetBehind(): void {
    if (this.current().behind !== undefined) this.set({ ...this.current(), behind: undefined });
  }

  forgetRefusal(): void {
    if (this.current().refused !== undefined) this.set({ ...this.current(), refused: undefined });
  }

  #awaits(id: string): void {
    const timer = window.setTimeout(() => {
      this.#pending.delete(id);
      this.set({ ...this.current(), refused: { id, code: 'no-answer', words: '', next: '' } });
    }, answerWithin);
    this.#pending.set(id, timer);
  }

  #settled(id: string | undefined): void {
    if (id === undefined) return;
    window.clearTimeout(this.#pending.get(id));
    this.#pending.delete(id);
  }
}

/** The live day for a wall: it only listens, and says when it showed a cue. */
export class WallStore extends Followed<WallLive> {
  readonly link: Link<ReturnType<typeof toWall.parse>>;

  constructor(lab: LabId) {
    super(darkWall);
    const device = deviceIdentity('wall');
    this.link = new Link(liveAddress(location), {
      ...browserParts,
      parse: parsed(toWall),
      hello: () => ({ lab, role: 'wall', device }),
      onMessage: (message, at) => this.set(wallReceived(this.current(), message, at)),
      onLost: () => this.set(wallLost(this.current())),
      onOtherVersion: () => this.set({ ...wallLost(this.current()), link: 'other-version' }),
    });
  }

  sounded(cue: string, heard: Heard): void {
    this.link.send(soundedMessage(cue, heard));
  }
}
