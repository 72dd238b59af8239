import type { ChildProcess } from 'node:child_process';
import { EventEmitter } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type AwakePorts, commandFor, KeepAwake } from '../../src/live/awake.ts';
import { macPower, powerOf, windowsPower } from '../../src/live/power.ts';
import { usbPower } from '../../src/live/usb-power.ts';
import { WakeWatch } from '../../src/live/waking.ts';

const folder = mkdtempSync(join(tmpdir(), 'sthene-machine-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

class FakeChild extends EventEmitter {
  killed = false;
  kill() {
    this.killed = true;
    return true;
  }
  unref() {}
}

function ports(platform: NodeJS.Platform, usb = ''): AwakePorts & { children: FakeChild[]; commands: string[][] } {
  const children: FakeChild[] = [];
  const commands: string[][] = [];
  const spawn = (program: string, args: readonly string[]) => {
    commands.push([program, ...args]);
    const child = new FakeChild();
    children.push(child);
    return child as unknown as ChildProcess;
  };
  const noUsb = { hold: async () => usb, release: async () => {} };
  return { platform, spawn: spawn as unknown as AwakePorts['spawn'], usb: noUsb, children, commands };
}

describe('sleep is held off while a day is open', () => {
  it.each([
    ['linux', 'systemd-inhibit', /idle:sleep/],
    ['darwin', 'caffeinate', /-d -i/],
    ['win32', 'powershell.exe', /SetThreadExecutionState\(\[uint32\]2147483651\)/],
  ] as const)('on %s by %s', (platform, program, like) => {
    const faked = ports(platform);
    const keep = new KeepAwake(faked);
    expect(keep.state).toMatchObject({ held: false, words: expect.stringContaining('may sleep') });
    keep.hold(() => {});
    keep.hold(() => {});
    expect(faked.commands).toHaveLength(1);
    expect(faked.commands[0]?.[0]).toBe(program);
    expect(faked.commands[0]?.join(' ')).toMatch(like);
    expect(keep.state.held).toBe(true);
    keep.release();
    expect(faked.children[0]?.killed).toBe(true);
    expect(keep.state.held).toBe(false);
  });

  it('says so where it cannot be had, at once or later', () => {
    expect(commandFor('aix', 1)).toBeUndefined();
    const nowhere = new KeepAwake(ports('aix'));
    nowhere.hold(() => {});
    expect(nowhere.state).toMatchObject({ held: false, words: expect.stringContaining('Switch its sleep off') });
    for (const event of ['error', 'exit']) {
      const faked = ports('linux');
      const keep = new KeepAwake(faked);
      let told = 0;
      keep.hold(() => told++);
      faked.children[0]?.emit(event, new Error('not found'));
      expect(told).toBe(1);
      expect(keep.state).toMatchObject({ held: false, words: expect.stringContaining('Switch its sleep off') });
    }
  });

  it('says what is to be done about USB by hand', async () => {
    const keep = new KeepAwake(ports('darwin', 'Switch off power saving of USB.'));
    await new Promise<void>((done) => keep.hold(done));
    expect(keep.state).toMatchObject({ held: true, words: expect.stringContaining('power saving of USB') });
    keep.release();
    expect(keep.state.words).not.toContain('USB');
  });

  it('keeps serial adapters awake where Linux lets it, and puts back what it changed', async () => {
    const root = join(folder, 'sys');
    const device = join(root, 'devices/usb1/1-2');
    mkdirSync(join(device, 'power'), { recursive: true });
    mkdirSync(join(device, '1-2:1.0/ttyUSB0'), { recursive: true });
    mkdirSync(join(root, 'class/tty/ttyUSB0'), { recursive: true });
    mkdirSync(join(root, 'class/tty/tty0'), { recursive: true });
    writeFileSync(join(device, 'idVendor'), '0403\n');
    writeFileSync(join(device, 'power/control'), 'auto\n');
    symlinkSync(join(device, '1-2:1.0/ttyUSB0'), join(root, 'class/tty/ttyUSB0/device'));
    const usb = usbPower('linux', root);
    expect(await usb.hold()).toBe('');
    expect(readFileSync(join(device, 'power/control'), 'utf8')).toBe('on');
    await usb.release();
    expect(readFileSync(join(device, 'power/control'), 'utf8')).toBe('auto');
    rmSync(join(device, 'power'), { recursive: true });
    expect(await usb.hold()).toMatch(/USB/);
    expect(await usbPower('win32').hold()).toMatch(/USB/);
  });
});

describe('what the machine runs on', () => {
  const supply = (name: string, files: Record<string, string>) => {
    mkdirSync(join(folder, 'power', name), { recursive: true });
    for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, 'power', name, file), `${text}\n`);
  };

  it('is read on Linux, the battery of a mouse apart', async () => {
    const read = powerOf('linux', join(folder, 'power'));
    expect(await read()).toBeUndefined();
    supply('hidpp', { type: 'Battery', scope: 'Device', capacity: '4', status: 'Discharging' });
    expect(await read()).toBeUndefined();
    supply('AC', { type: 'Mains', online: '1' });
    supply('BAT0', { type: 'Battery', capacity: '81', status: 'Charging' });
    expect(await read()).toEqual({ onMains: true, charge: 81 });
    supply('AC', { type: 'Mains', online: '0' });
    supply('BAT0', { type: 'Battery', capacity: '62', status: 'Discharging' });
    expect(await read()).toEqual({ onMains: false, charge: 62 });
  });

  it('is read from what macOS and Windows say', () => {
    const mac = "Now drawing from 'Battery Power'\n -InternalBattery-0 (id=1234)\t57%; discharging; 3:10 remaining\n";
    expect(macPower(mac)).toEqual({ onMains: false, charge: 57 });
    expect(macPower(mac.replace('Battery Power', 'AC Power'))).toEqual({ onMains: true, charge: 57 });
    expect(macPower("Now drawing from 'AC Power'\n")).toBeUndefined();
    expect(windowsPower('{"EstimatedChargeRemaining":40,"BatteryStatus":1}\r\n')).toEqual({
      onMains: false,
      charge: 40,
    });
    expect(windowsPower('[{"EstimatedChargeRemaining":99,"BatteryStatus":2}]')).toEqual({ onMains: true, charge: 99 });
    expect(windowsPower('')).toBeUndefined();
  });

  it('never throws', async () => {
    expect(await powerOf('linux', join(folder, 'not there'))()).toBeUndefined();
    expect(await powerOf('sunos')()).toBeUndefined();
  });
});

it('notices that the machine slept, and takes a clock that was set back for none', () => {
  let monotonic = 0;
  let wall = 1_000_000;
  const watch = new WakeWatch({
    monotonic: () => BigInt(Math.round(monotonic * 1e9)) as never,
    wall: () => new Date(1000 * wall).toISOString() as never,
  });
  const after = (m: number, w: number) => {
    monotonic += m;
    wall += w;
    return watch.beat();
  };
  expect(after(0.25, 0.25)).toBeUndefined();
  expect(after(3, 3)).toBeUndefined();
  // Frozen, or asleep with a monotonic clock that goes on.
  expect(after(8, 8)).toBeCloseTo(8, 6);
  // Asleep with a monotonic clock that sleeps too.
  expect(after(0.25, 3600)).toBeCloseTo(3600, 6);
  expect(after(0.25, -3600)).toBeUndefined();
  expect(after(0.25, 1.5)).toBeUndefined();
});
