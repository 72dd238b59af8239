import type { ClockTie } from '@sthene/contract';

/** How far two quartz clocks may run apart, as a share: 100 ppm, more than any device in order has. Common practice. */
const drift = 1e-4;

/**
 * Station time of an instant of a device's clock, ms, by the tie that says it most precisely: a tie loses precision with its distance.
 *
 * @returns undefined without any tie
 */
export function stationTime(
  at: number,
  ties: readonly ClockTie[],
): { readonly at: number; readonly uncertainty: number } | undefined {
  let best: { at: number; uncertainty: number } | undefined;
  for (const tie of ties) {
    const uncertainty = tie.uncertainty + drift * Math.abs(at - tie.at);
    if (best === undefined || uncertainty < best.uncertainty) best = { at: at + tie.offset, uncertainty };
  }
  return best;
}
