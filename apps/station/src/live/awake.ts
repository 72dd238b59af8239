import { type ChildProcess, spawn } from 'node:child_process';
import { type UsbPower, usbPower } from './usb-power.ts';

/** Keeps this machine from falling asleep while a day is open, as far as the system lets us. */
export interface Awake {
  readonly held: boolean;
  readonly words: string;
}

type Command = readonly [program: string, ...args: string[]];

/** Continuous, system and display required, as Windows counts them. */
const windowsFlags = 0x80000003;
const windowsScript = [
  '$name = Add-Type -PassThru -Namespace Sthene -Name Awake -MemberDefinition \'[DllImport("kernel32.dll")] public static extern uint SetThreadExecutionState(uint flags);\'',
  `if ($name::SetThreadExecutionState([uint32]${windowsFlags}) -eq 0) { exit 1 }`,
  '[void][Console]::In.ReadToEnd()',
].join('; ');

/**
 * What keeps a system awake, its screen unlocked included, as long as it runs. A pipe from us is its standard input, or it watches
 * our process, so that it ends when we do.
 */
export function commandFor(platform: NodeJS.Platform, pid: number): Command | undefined {
  if (platform === 'darwin') return ['caffeinate', '-d', '-i', '-m', '-s', '-w', String(pid)];
  if (platform === 'win32') {
    return ['powershell.exe', '-NoProfile', '-NonInteractive', '-Command', windowsScript];
  }
  if (platform === 'linux') {
    const about = ['--what=idle:sleep:handle-lid-switch', '--who=Sthene', '--why=A test day is open', '--mode=block'];
    return ['systemd-inhibit', ...about, 'cat'];
  }
  return undefined;
}

const asleep: Awake = { held: false, words: 'No day is open; this machine may sleep.' };
const awake = 'This machine is kept awake while the day is open.';
const cannot = 'This machine cannot be kept awake from here. Switch its sleep off for the day.';

export interface AwakePorts {
  readonly platform: NodeJS.Platform;
  readonly spawn: typeof spawn;
  readonly usb: UsbPower;
}

const systemPorts: AwakePorts = { platform: process.platform, spawn, usb: usbPower(process.platform) };

/** Holds sleep off with a child process; where none can be had it says so, and a person can set the machine themselves. */
export class KeepAwake {
  #child: ChildProcess | undefined;
  #usb = '';
  #state: Awake = asleep;
  readonly #ports: AwakePorts;

  constructor(ports: AwakePorts = systemPorts) {
    this.#ports = ports;
  }

  get state(): Awake {
    return { ...this.#state, words: [this.#state.words, this.#usb].filter(Boolean).join(' ') };
  }

  /** @param changed called when the state turns out otherwise later */
  hold(changed: () => void): void {
    if (this.#child !== undefined) return;
    void this.#holdUsb(changed);
    const command = commandFor(this.#ports.platform, process.pid);
    if (command === undefined) {
      this.#state = { held: false, words: cannot };
      return;
    }
    const [program, ...args] = command;
    const child = this.#ports.spawn(program, args, { stdio: ['pipe', 'ignore', 'ignore'] });
    this.#child = child;
    this.#state = { held: true, words: awake };
    const failed = () => {
      if (this.#child !== child) return;
      this.#child = undefined;
      this.#state = { held: false, words: cannot };
      changed();
    };
    child.on('error', failed);
    child.on('exit', failed);
    child.stdin?.on('error', () => {});
    child.unref();
    // Its pipe must not keep a station alive that wants to end.
    (child.stdin as unknown as { unref?: () => void } | null)?.unref?.();
  }

  async #holdUsb(changed: () => void): Promise<void> {
    const words = await this.#ports.usb.hold();
    if (words === this.#usb || this.#state === asleep) return;
    this.#usb = words;
    changed();
  }

  release(): void {
    const child = this.#child;
    this.#child = undefined;
    this.#state = asleep;
    this.#usb = '';
    child?.kill();
    void this.#ports.usb.release();
  }
}
