import type { Controls as ControlsView } from '@sthene/contract';
import type { Device } from './hub/client.ts';

/** Who holds the controls. One device at a time; another takes them over with one message. */
export class Controls {
  #holder: { readonly device: Device; readonly since: string } | undefined;

  get view(): ControlsView {
    const held = this.#holder;
    return held === undefined ? {} : { holder: held.device.id, name: held.device.name, since: held.since };
  }

  isHeldBy(device: Device): boolean {
    return this.#holder?.device.id === device.id;
  }

  take(device: Device, since: string): void {
    this.#holder = { device, since };
  }

  release(device: Device): boolean {
    if (!this.isHeldBy(device)) return false;
    this.#holder = undefined;
    return true;
  }
}
