import type { Run } from '../codec/run.ts';
import { encodedRun } from './encoded.ts';
import { type LineScript, lineActs, trueTime } from './line.ts';

/** What comes out of the line at a time of the station, s. */
export type TwinAct =
  | { readonly at: number; readonly do: 'run'; readonly run: Run; readonly first: number }
  | { readonly at: number; readonly do: 'unplug' | 'plug' };

export interface TwinDevice {
  readonly line: LineScript;
  readonly channels: number;
  /** Samples in all; whole packets. */
  readonly samples: number;
  /** Counter of samples: after this count it starts again at 0; never when absent. `none`: no counter at all. */
  readonly wrapsAt?: number | 'none';
  readonly counterStart?: number;
}

/**
 * The simulated twin of a device on a cable: encoded samples in packets, with everything its script does to them, in the order
 * of their times. The same script is the same stream.
 */
export function* twinDevice({ line, channels, samples, wrapsAt, counterStart = 0 }: TwinDevice): Generator<TwinAct> {
  const { packet, rate, rateDrift = 0, faults = [] } = line;
  const acts = lineActs(faults);
  let shift = counterStart;
  const countAt = (n: number): number | undefined => {
    if (wrapsAt === 'none') return undefined;
    const count = n * packet + shift;
    return wrapsAt === undefined ? count : count % (wrapsAt + 1);
  };
  const counters = new Map<number, number | undefined>();
  const runOf = (n: number) => encodedRun(n * packet, packet, channels, counters.get(n));
  let later: { at: number; n: number }[] = [];
  for (let n = 0; n < samples / packet; n++) {
    const at = trueTime((n + 1) * packet, rate, rateDrift);
    const lie = faults.find((fault) => fault.kind === 'lie' && fault.at === n);
    counters.set(n, lie?.kind === 'lie' ? lie.counter : countAt(n));
    later.sort((a, b) => a.at - b.at);
    for (const one of later.filter((held) => held.at <= at)) {
      yield { at: one.at, do: 'run', run: runOf(one.n), first: one.n * packet };
    }
    later = later.filter((held) => held.at > at);
    for (const act of acts(n)) {
      if (act.do === 'deliver') yield { at, do: 'run', run: runOf(act.packet), first: act.packet * packet };
      else if (act.do === 'deliver-later') later.push({ at: at + act.seconds, n: act.packet });
      else {
        if (act.do === 'plug' && act.countsAnew) shift = -(n + 1) * packet;
        yield { at, do: act.do };
      }
    }
  }
}
