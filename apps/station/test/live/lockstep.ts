import { createRig, isVirtual, type Packet, type Schedule, type SourceDescription } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';
import { systemClock } from '../../src/live/clock.ts';
import type { LivePorts } from '../../src/live/ports.ts';
import { stationPorts } from '../../src/live/station-ports.ts';

/** Milliseconds of the plates in one step. */
const step = 100;
/** Between two steps, ms: at most twenty times as fast as people are. */
const pause = 5;

/**
 * Ports whose virtual plates wait for the station: a step at a time, and none while something is still being kept. A day on them is
 * the same day on a machine that is busy with other things, only slower.
 */
export function lockstepPorts(
  more: Partial<LivePorts> = {},
  pass: (packet: Packet) => Packet | undefined = (packet) => packet,
): LivePorts {
  const labs: { readonly keeping: boolean }[] = [];
  let now = 0;
  const clock = {
    monotonic: () => BigInt(Math.round(now * 1e6)) as MonotonicNanoseconds,
    wall: systemClock.wall,
  };
  const schedule: Schedule = (tick) => {
    const timer = setInterval(() => {
      if (labs.some(({ keeping }) => keeping)) return;
      now += step;
      tick();
    }, pause);
    return () => clearInterval(timer);
  };
  return {
    ...stationPorts,
    watch: (lab) => labs.push(lab),
    createSource: (rig, descriptions) => {
      const source = createRig(descriptions.map(unhurried), { id: rig, clock, schedule });
      if (!isVirtual(source)) return source;
      const start = source.start.bind(source);
      source.start = (emit) =>
        start((packet) => {
          // Arrival is by the station's clock, as of any plates.
          const passed = pass({ ...packet, at: systemClock.monotonic() });
          if (passed !== undefined) emit(passed);
        });
      return source;
    },
    ...more,
  };
}

/** The pace is the schedule's alone. */
const unhurried = (description: SourceDescription): SourceDescription =>
  description.transport.kind === 'virtual'
    ? { ...description, transport: { ...description.transport, speed: 1 } }
    : description;
