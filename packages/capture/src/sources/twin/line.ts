/** A line between a device and the station, as data: how fast the device really is and what happens to its packets. */
export interface LineScript {
  /** True rate, Hz. */
  readonly rate: number;
  /** Change of the true rate, Hz per minute. */
  readonly rateDrift?: number;
  /** Samples a packet. */
  readonly packet: number;
  readonly faults?: readonly PacketFault[];
}

/** What happens to packet number `at`, counted from 0, or to `packets` of them from there on. */
export type PacketFault =
  | { readonly kind: 'lost'; readonly at: number; readonly packets?: number }
  | { readonly kind: 'doubled'; readonly at: number }
  /** Its counter is wrong, as by a bit error that no checksum catches. */
  | { readonly kind: 'lie'; readonly at: number; readonly counter: number }
  /** Comes after the next one. */
  | { readonly kind: 'swapped'; readonly at: number }
  /** Comes so many seconds later. */
  | { readonly kind: 'late'; readonly at: number; readonly seconds: number }
  /** Nothing comes for so many packets; they are lost, or all come at the end where the line keeps them. */
  | { readonly kind: 'stall'; readonly at: number; readonly packets: number; readonly kept?: boolean }
  /** The cable is out for so many packets; the device may count anew after that. */
  | { readonly kind: 'unplug'; readonly at: number; readonly packets: number; readonly countsAnew?: boolean };

/** What the line does with one packet, in order. */
export type LineAct =
  | { readonly do: 'deliver'; readonly packet: number }
  /** Comes so many seconds after this one's time. */
  | { readonly do: 'deliver-later'; readonly packet: number; readonly seconds: number }
  | { readonly do: 'unplug' }
  | { readonly do: 'plug'; readonly countsAnew: boolean };

/** Answers what happens when packet number `n` is due; packets have to be asked for in order. */
export function lineActs(faults: readonly PacketFault[]): (n: number) => LineAct[] {
  const kept: number[] = [];
  let swapped: number | undefined;
  const last = (fault: PacketFault) => fault.at + ('packets' in fault ? (fault.packets ?? 1) : 1) - 1;
  return (n) => {
    const acts: LineAct[] = [];
    const fault = faults.find((one) => n >= one.at && n <= last(one));
    const plain: LineAct = { do: 'deliver', packet: n };
    if (fault === undefined || fault.kind === 'lie') acts.push(plain);
    else if (fault.kind === 'doubled') acts.push(plain, plain);
    else if (fault.kind === 'late') acts.push({ do: 'deliver-later', packet: n, seconds: fault.seconds });
    else if (fault.kind === 'unplug') {
      if (n === fault.at) acts.push({ do: 'unplug' });
      if (n === last(fault)) acts.push({ do: 'plug', countsAnew: fault.countsAnew ?? false });
    } else if (fault.kind === 'stall' && fault.kept) {
      kept.push(n);
      if (n === last(fault)) for (const packet of kept.splice(0)) acts.push({ do: 'deliver', packet });
    }
    if (swapped !== undefined) acts.push({ do: 'deliver', packet: swapped });
    swapped = fault?.kind === 'swapped' ? n : undefined;
    return acts;
  };
}

/** What a recording of this line has to count, as long as it runs past the last fault. */
export interface LineCounts {
  readonly missing: number;
  readonly gaps: number;
  readonly doubled: number;
  readonly late: number;
  /** Out of order, and put in order again. */
  readonly swapped: number;
}

/**
 * Counts a script implies, for faults that do not touch each other.
 * @param window seconds within which a late packet is put in order again
 */
export function countsOf({ faults = [], packet }: LineScript, window: number): LineCounts {
  const counts = { missing: 0, gaps: 0, doubled: 0, late: 0, swapped: 0 };
  for (const fault of faults) {
    if (fault.kind === 'doubled') counts.doubled++;
    if (fault.kind === 'swapped' || (fault.kind === 'late' && fault.seconds <= window)) counts.swapped++;
    if (fault.kind === 'lie') {
      counts.gaps++;
      counts.missing += packet;
    }
    if (fault.kind === 'late' && fault.seconds > window) {
      counts.late++;
      counts.gaps++;
      counts.missing += packet;
    }
    if (fault.kind === 'lost' || fault.kind === 'unplug' || (fault.kind === 'stall' && !fault.kept)) {
      counts.gaps++;
      counts.missing += (fault.packets ?? 1) * packet;
    }
  }
  return counts;
}

/** Time at which sample n of the true clock lies, s: rate t + drift t^2 / 120 = n. */
export function trueTime(n: number, rate: number, driftPerMinute: number): number {
  if (driftPerMinute === 0) return n / rate;
  const a = driftPerMinute / 120;
  return (2 * n) / (rate + Math.sqrt(Math.max(0, rate * rate + 4 * a * n)));
}
