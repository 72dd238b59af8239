import { type LabId, type RigFloor, type RigView, type ToOperator, toOperator } from '@sthene/contract';
import { deviceNow, readingOf } from '../live/clock.ts';
import { deviceIdentity, randomId } from '../live/device.ts';
import { Link, type LinkSocket, liveAddress } from '../live/link.ts';
import { type CameraFault, openCamera } from './camera.ts';
import { clockFrom, type TimedReading, withTimedReading } from './clock.ts';
import { follow, type Under } from './follow.ts';
import { FilmRecorder } from './recorder.ts';
import { Uploader, type UploadState, uploadPort } from './uploader.ts';

/** Everything a camera screen shows. */
export interface FilmState {
  readonly link: 'opening' | 'open' | 'lost' | 'other-version';
  readonly camera: 'off' | 'asking' | 'ready' | CameraFault;
  readonly rig?: RigView | undefined;
  readonly floor?: RigFloor | undefined;
  /** Whether a day is open; undefined before the station has said so. */
  readonly dayOpen?: boolean;
  readonly under?: Under | undefined;
  /** Bound of the clock's error, ms. */
  readonly clock?: number | undefined;
  readonly picture?: { readonly width: number; readonly height: number } | undefined;
  readonly upload: UploadState;
}

const probeEvery = 1000;
const tickEvery = 250;

/** A camera at one rig: it follows the turns by the live connection as any looker-on does, films efforts and sends them. */
export class FilmStore {
  readonly #lab: LabId;
  readonly #asked: string;
  readonly #device: { readonly id: string; readonly name: string };
  readonly #link: Link<ToOperator>;
  readonly #uploader: Uploader;
  readonly #listeners = new Set<() => void>();
  readonly #floors = new Map<string, RigFloor>();
  readonly #rigs = new Map<string, RigView>();
  #recorder: FilmRecorder | undefined;
  #readings: readonly TimedReading[] = [];
  #heardAt = deviceNow();
  #timers: number[] = [];
  #probes = 0;
  #state: FilmState = { link: 'opening', camera: 'off', upload: { waiting: 0, films: 0, retrying: false } };

  /** @param asked id or letter of the rig */
  constructor(lab: LabId, asked: string) {
    this.#lab = lab;
    this.#asked = asked;
    const { id } = deviceIdentity('operator');
    this.#device = { id: `${id}-camera`, name: `Camera ${id.slice(0, 4)}` };
    this.#uploader = new Uploader(uploadPort(lab), (upload) => this.#set({ upload }));
    this.#link = new Link<ToOperator>(liveAddress(location), {
      socket: (url) => new WebSocket(url) as unknown as LinkSocket,
      now: deviceNow,
      later: (act, ms) => window.setTimeout(act, ms),
      forget: (timer) => window.clearTimeout(timer),
      parse: (text) => {
        try {
          const result = toOperator.safeParse(JSON.parse(String(text)));
          return result.success ? result.data : undefined;
        } catch {
          return undefined;
        }
      },
      hello: () => ({ lab: this.#lab, role: 'viewer', device: this.#device }),
      onMessage: (message, at) => this.#take(message, at),
      onLost: () => {
        // Another station may answer next, with another clock.
        this.#readings = [];
        this.#set({ link: 'lost' });
      },
      onOtherVersion: () => this.#set({ link: 'other-version' }),
    });
  }

  readonly current = (): FilmState => this.#state;

  readonly listen = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  start(): () => void {
    this.#link.start();
    this.#timers = [
      window.setInterval(() => this.#probe(), probeEvery),
      window.setInterval(() => this.#follow(), tickEvery),
    ];
    return () => {
      for (const timer of this.#timers) window.clearInterval(timer);
      this.closeCamera();
      this.#link.stop();
    };
  }

  retry(): void {
    this.#link.retry();
  }

  /** Opens the camera and shows it in `picture`. */
  async openCamera(picture: HTMLVideoElement): Promise<void> {
    if (this.#state.camera === 'asking' || this.#state.camera === 'ready') return;
    this.#set({ camera: 'asking' });
    const opened = await openCamera();
    if (this.current().camera !== 'asking') {
      // The page was left while the browser still asked: nobody is to be filmed by a page that is gone.
      if (opened.ok) for (const track of opened.stream.getTracks()) track.stop();
      return;
    }
    if (!opened.ok) return this.#set({ camera: opened.fault });
    const { stream, mediaType } = opened;
    picture.srcObject = stream;
    await picture.play().catch(() => {});
    const [track] = stream.getVideoTracks();
    track?.addEventListener('ended', () => this.#lost());
    this.#recorder = new FilmRecorder({
      stream,
      mediaType,
      picture,
      uploader: this.#uploader,
      clock: () => clockFrom(this.#readings, deviceNow()),
      now: deviceNow,
    });
    const { width = 0, height = 0 } = track?.getSettings() ?? {};
    this.#set({ camera: 'ready', picture: { width, height } });
  }

  closeCamera(): void {
    this.#recorder?.close();
    this.#recorder = undefined;
    this.#set({ camera: 'off', under: undefined });
  }

  /** The camera was pulled out or taken away: what it has filmed is kept. */
  #lost(): void {
    if (this.#recorder === undefined) return;
    this.#recorder.close();
    this.#recorder = undefined;
    this.#set({ camera: 'lost', under: undefined });
  }

  #take(message: ToOperator, at: number): void {
    this.#heardAt = at;
    switch (message.type) {
      case 'probe':
        this.#readings = withTimedReading(this.#readings, {
          ...readingOf(message.t0, message.t1, message.t2, at),
          at,
        });
        this.#set({ clock: clockFrom(this.#readings, at)?.uncertainty });
        return;
      case 'snapshot':
        this.#rigs.clear();
        this.#floors.clear();
        for (const rig of message.rigs) this.#rigs.set(rig.id, rig);
        for (const floor of message.floors) this.#floors.set(floor.rig, floor);
        this.#set({ link: 'open', dayOpen: message.day !== undefined });
        break;
      case 'day':
        this.#set({ dayOpen: message.day !== undefined });
        return;
      case 'rig':
        this.#rigs.set(message.rig.id, message.rig);
        break;
      case 'phase':
        this.#floors.set(message.floor.rig, message.floor);
        break;
      default:
        return;
    }
    const rig =
      this.#rigs.get(this.#asked) ??
      [...this.#rigs.values()].find(({ letter }) => letter === this.#asked.toUpperCase());
    this.#set({ rig, floor: rig && this.#floors.get(rig.id) });
    this.#follow();
  }

  #follow(): void {
    const { under: before, floor, camera } = this.#state;
    const recorder = this.#recorder;
    if (camera !== 'ready' || recorder === undefined) return;
    const { under, act } = follow(before, floor, deviceNow(), this.#heardAt);
    if (under !== before) this.#set({ under });
    if (act === 'start' && floor?.turn !== undefined)
      recorder.start({ id: randomId(), rig: floor.rig, turn: floor.turn.id, device: this.#device.id });
    else if (act === 'keep' || act === 'discard') recorder.end(act);
  }

  #probe(): void {
    this.#link.send({ type: 'probe', id: `film-${++this.#probes}`, t0: deviceNow() });
  }

  #set(change: Partial<FilmState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}
