import { readdir, readFile, realpath, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';

/** Keeps serial adapters on USB from being put to sleep. */
export interface UsbPower {
  /** @returns what a person must do themselves; empty when nothing */
  hold(): Promise<string>;
  /** Puts back what was changed. */
  release(): Promise<void>;
}

const byHand = 'Switch off power saving of USB in the settings of this machine.';

/** Only Linux lets a program ask and, with the right to, change it; elsewhere a person is told. */
export function usbPower(platform: NodeJS.Platform, root = '/sys'): UsbPower {
  if (platform !== 'linux') return { hold: async () => byHand, release: async () => {} };
  const changed = new Set<string>();
  return {
    async hold() {
      let refused = 0;
      for (const control of await controlsOf(root)) {
        try {
          if ((await readFile(control, 'utf8')).trim() !== 'auto') continue;
          await writeFile(control, 'on');
          changed.add(control);
        } catch {
          refused++;
        }
      }
      return refused === 0 ? '' : byHand;
    },
    async release() {
      for (const control of changed) await writeFile(control, 'auto').catch(() => {});
      changed.clear();
    },
  };
}

/** `power/control` of every USB device that is a serial port. */
async function controlsOf(root: string): Promise<Set<string>> {
  const controls = new Set<string>();
  const ports = await readdir(join(root, 'class/tty')).catch((): string[] => []);
  for (const port of ports.filter((name) => /^tty(USB|ACM)/.test(name))) {
    let folder = await realpath(join(root, 'class/tty', port, 'device')).catch(() => '/');
    while (folder.startsWith(root) && folder !== root) {
      const own = await readdir(folder).catch((): string[] => []);
      if (own.includes('idVendor')) {
        controls.add(join(folder, 'power/control'));
        break;
      }
      folder = dirname(folder);
    }
  }
  return controls;
}
