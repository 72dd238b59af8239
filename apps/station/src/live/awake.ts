import { type ChildProcess, spawn } from 'node:child_process';

/** Keeps this machine from falling asleep while a day is open, as far as the system lets us. */
export interface Awake {
  readonly held: boolean;
  readonly words: string;
}

type Command = readonly [program: string, ...args: string[]];

/** What keeps a system awake as long as it runs. A pipe from us is its standard input, so that it ends when we do. */
export function commandFor(platform: NodeJS.Platform, pid: number): Command | undefined {
  if (platform === 'darwin') return ['caffeinate', '-i', '-m', '-w', String(pid)];
  if (platform === 'linux') {
    const about = ['--what=idle:sleep:handle-lid-switch', '--who=Sthene', '--why=A test day is open', '--mode=block'];
    return ['systemd-inhibit', ...about, 'cat'];
  }
  return undefined;
}

const asleep: Awake = { held: false, words: 'No day is open; this machine may sleep.' };

/** Holds sleep off with a child process; where none can be had it says so, and a person can set the machine themselves. */
export class KeepAwake {
  #child: ChildProcess | undefined;
  #state: Awake = asleep;
  readonly #platform: NodeJS.Platform;

  constructor(platform: NodeJS.Platform = process.platform) {
    this.#platform = platform;
  }

  get state(): Awake {
    return this.#state;
  }

  /** @param changed called when the state turns out otherwise later */
  hold(changed: () => void): void {
    if (this.#child !== undefined) return;
    const command = commandFor(this.#platform, process.pid);
    if (command === undefined) {
      this.#state = cannot;
      return;
    }
    const [program, ...args] = command;
    const child = spawn(program, args, { stdio: ['pipe', 'ignore', 'ignore'] });
    this.#child = child;
    this.#state = { held: true, words: 'This machine is kept awake while the day is open.' };
    const failed = () => {
      if (this.#child !== child) return;
      this.#child = undefined;
      this.#state = cannot;
      changed();
    };
    child.on('error', failed);
    child.on('exit', failed);
    child.unref();
    // Its pipe must not keep a station alive that wants to end.
    (child.stdin as unknown as { unref?: () => void } | null)?.unref?.();
  }

  release(): void {
    const child = this.#child;
    this.#child = undefined;
    this.#state = asleep;
    child?.kill();
  }
}

const cannot: Awake = {
  held: false,
  words: 'This machine cannot be kept awake from here. Switch its sleep off for the day.',
};
