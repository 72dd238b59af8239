import { createEngine, type Engine, type EngineOutput, type Packet } from '@sthene/capture';
import type { Method, UtcInstant } from '@sthene/core';
import { type RunPlan, recipesOf, rulesOf, testOf } from './day/plan.ts';
import { inputLabel, inputOf } from './rig/inputs.ts';
import { RecentSamples } from './rig/recent.ts';

/** What the engines of a journalled day were made with. */
export interface ReplaySettings {
  readonly plans: readonly RunPlan[];
  readonly method: Method;
  /** m/s^2. */
  readonly gravity: number;
  readonly handsFree: boolean;
  /** The journal ends because the station stopped: what was under way ends there, by rule. */
  readonly cutOff?: Extract<Packet, { kind: 'status' }>;
}

/** What an engine said again, and the samples as they stood at that moment. */
export interface Replayed {
  readonly test: string;
  readonly output: EngineOutput;
  readonly recent: RecentSamples | undefined;
  /** When the stream began. */
  readonly startedAt: UtcInstant | undefined;
}

/**
 * Runs a journalled capture through the engines of its day again: packets and everything the engines were told, in the order in
 * which the journal holds them. The same journal gives the same outputs at the same samples.
 */
export async function* replay(
  packets: AsyncIterable<Packet> | Iterable<Packet>,
  settings: ReplaySettings,
): AsyncGenerator<Replayed> {
  const engines = new Map(settings.plans.map((plan) => [plan.test, engineFor(plan, settings)]));
  let recent: RecentSamples | undefined;
  let startedAt: UtcInstant | undefined;
  const said = (test: string, outputs: readonly EngineOutput[] = []): Replayed[] =>
    outputs.map((output) => ({ test, output, recent, startedAt }));
  for await (const packet of packets) {
    if (packet.kind === 'header') {
      recent ??= new RecentSamples(packet);
      startedAt = packet.wallClock;
    } else if (packet.kind === 'samples') recent?.samples(packet);
    else if (packet.kind === 'gap') recent?.gap(packet);
    if (packet.kind === 'mark') {
      const told = packet.label === inputLabel ? inputOf(packet.data) : undefined;
      if (told !== undefined) yield* said(told.test, engines.get(told.test)?.step(told.input));
      continue;
    }
    for (const [test, engine] of engines) yield* said(test, engine.step({ kind: 'packet', packet }));
  }
  const { cutOff } = settings;
  if (cutOff === undefined) return;
  for (const [test, engine] of engines) yield* said(test, engine.step({ kind: 'packet', packet: cutOff }));
}

const engineFor = (plan: RunPlan, { method, gravity, handsFree }: ReplaySettings): Engine =>
  createEngine({
    protocol: testOf(plan),
    ...recipesOf(method, plan),
    running: rulesOf(plan),
    gravity,
    mode: handsFree ? 'hands-free' : 'guided',
    liveRate: 10,
  });
