import { execFile } from 'node:child_process';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';

/** What this machine runs on. */
export interface Power {
  readonly onMains: boolean;
  /** Charge of the battery, %. */
  readonly charge?: number;
}

/** Reads what the machine runs on; undefined where it cannot be known, or there is no battery. */
export type ReadPower = () => Promise<Power | undefined>;

const run = promisify(execFile);

/** The reader of a system. It never throws. */
export function powerOf(platform: NodeJS.Platform, root = '/sys/class/power_supply'): ReadPower {
  const read =
    platform === 'linux'
      ? () => linuxPower(root)
      : platform === 'darwin'
        ? async () => macPower((await run('pmset', ['-g', 'batt'])).stdout)
        : platform === 'win32'
          ? async () => windowsPower((await run('powershell.exe', ['-NoProfile', '-Command', windowsQuery])).stdout)
          : async () => undefined;
  return () => read().catch(() => undefined);
}

async function linuxPower(root: string): Promise<Power | undefined> {
  let mains: boolean | undefined;
  let charge: number | undefined;
  let discharging = false;
  for (const name of await readdir(root)) {
    const field = (file: string) =>
      readFile(join(root, name, file), 'utf8').then(
        (text) => text.trim(),
        () => '',
      );
    const kind = await field('type');
    if (kind === 'Mains') mains = mains === true || (await field('online')) === '1';
    // A mouse has a battery too; its scope says that it is not the machine's.
    if (kind !== 'Battery' || (await field('scope')) === 'Device') continue;
    const percent = Number.parseInt(await field('capacity'), 10);
    if (Number.isFinite(percent)) charge = Math.min(charge ?? 100, percent);
    if ((await field('status')) === 'Discharging') discharging = true;
  }
  if (charge === undefined) return undefined;
  return { onMains: mains ?? !discharging, charge };
}

/** From the words of `pmset -g batt`. */
export function macPower(text: string): Power | undefined {
  const percent = /(\d+)%/.exec(text)?.[1];
  if (percent === undefined) return undefined;
  return { onMains: text.includes("'AC Power'"), charge: Number(percent) };
}

const windowsQuery =
  'Get-CimInstance Win32_Battery | Select-Object EstimatedChargeRemaining,BatteryStatus | ConvertTo-Json -Compress';

/** From the answer of Win32_Battery; its status 1 is discharging, 4 and 5 low and critical. */
export function windowsPower(text: string): Power | undefined {
  if (text.trim() === '') return undefined;
  const parsed: unknown = JSON.parse(text);
  const [first] = (Array.isArray(parsed) ? parsed : [parsed]) as {
    EstimatedChargeRemaining?: number;
    BatteryStatus?: number;
  }[];
  if (first?.BatteryStatus === undefined) return undefined;
  const onMains = ![1, 4, 5].includes(first.BatteryStatus);
  return {
    onMains,
    ...(first.EstimatedChargeRemaining === undefined ? {} : { charge: first.EstimatedChargeRemaining }),
  };
}
