import { join } from 'node:path';
import { type ClosedTrial, createEngine, type Engine, type EngineOutput } from '@sthene/capture';
import type { DayPlan } from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import type { Capture } from '@sthene/store';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import { useMethod } from '../work/methods.ts';
import { openDay } from './day/day-work.ts';
import { planOf, protocolOf, rulesOf } from './day/plan.ts';
import type { LiveLab } from './live-lab.ts';
import type { RecoveredCapture } from './ports.ts';
import { inputLabel, inputOf } from './rig/inputs.ts';
import { keepReview, keepTrial } from './rig/keep-trial.ts';
import { RecentSamples } from './rig/recent.ts';
import { journalFolder } from './rig/rig-work.ts';

/**
 * Puts right what a kill or a power cut left behind: captures that were not closed are run through the same engine again, efforts
 * that had ended or were under way are kept where they belong, and a day that was open goes on. May be cut off itself and begun
 * again: an effort of the same samples is made only once.
 */
export async function recover(live: LiveLab): Promise<void> {
  const running = await live.lab.store.captures.list({ state: 'running' });
  const folder = join(live.lab.folder, journalFolder);
  const found = running.length === 0 ? [] : await live.ports.unfinished(folder, new Set(running.map(({ id }) => id)));
  for (const capture of running) {
    const journal = found.find((one) => one.capture === capture.id);
    await recoverCapture(live, capture, journal);
  }
  await live.refresh();
  const open = live.loaded;
  if (open === undefined) return;
  try {
    await openDay(live, open.day.id, 'station');
  } catch (error) {
    live.raise({
      severity: 'alarm',
      code: 'day-not-resumed',
      words: `A rig of the open day could not be opened: ${error instanceof Error ? error.message : String(error)}`,
      next: 'Check cable and power, then open the rig again.',
    });
  }
}

async function recoverCapture(live: LiveLab, capture: Capture, journal: RecoveredCapture | undefined): Promise<void> {
  const { store } = live.lab;
  const kept = journal === undefined ? 0 : await keepEfforts(live, capture, journal);
  const words =
    journal === undefined
      ? 'The station stopped before the first sample was safe.'
      : `${journal.words} ${kept === 0 ? 'No effort was waiting to be kept.' : `Efforts kept now: ${kept}.`}`;
  await store.captures.change(
    capture.id,
    {
      state: journal?.damaged === true ? 'damaged' : 'recovered',
      endedAt: live.ports.clock.wall(),
      samples: journal?.samples ?? 0,
      missing: journal?.missing ?? 0,
      words,
    },
    stationActor,
  );
  live.raise({
    severity: journal?.damaged === true ? 'alarm' : 'note',
    code: 'capture-recovered',
    words: `The station had stopped without closing. ${words}`,
    next: 'Look at the last effort before going on.',
    rig: capture.rig,
  });
}

/** The mean of the empty plates after a turn, where the station stopped before it was kept. */
async function review(lab: OpenLab, capture: string, trial: ClosedTrial): Promise<void> {
  const origin = (await lab.store.origins.ofCapture(capture)).find(({ span }) => span.start === trial.span.start);
  if (origin === undefined || origin.facts.unloaded !== undefined) return;
  await keepReview(lab, origin, trial);
}

/** Runs a capture again and keeps the efforts that are not in the store yet. @returns how many that were */
async function keepEfforts(live: LiveLab, capture: Capture, journal: RecoveredCapture): Promise<number> {
  const { lab } = live;
  const day = capture.day === undefined ? undefined : await lab.store.days.get(capture.day);
  const plans = (day?.plans as DayPlan[] | undefined) ?? [planOf('imtp')];
  const { method } = await useMethod(lab);
  const handsFree = (day?.settings as { readonly handsFree?: boolean } | undefined)?.handsFree === true;
  const engines = new Map<string, Engine>(
    plans.map((plan) => [
      plan.test,
      createEngine({
        protocol: protocolOf(plan.test),
        method,
        running: rulesOf(plan),
        gravity: lab.gravity,
        mode: handsFree ? 'hands-free' : 'guided',
        liveRate: 10,
      }),
    ]),
  );
  const known = new Set((await lab.store.origins.ofCapture(capture.id)).map(({ span }) => span.start));
  let recent: RecentSamples | undefined;
  let startedAt = Date.parse(capture.startedAt);
  let kept = 0;

  const keep = async (test: string, closed: ClosedTrial) => {
    if (known.has(closed.span.start) || recent === undefined) return;
    const plan = plans.find((one) => one.test === test);
    if (plan === undefined) return;
    const channels = recent.header.channels.flatMap((channel, index) =>
      channel.axis === 'z' || channel.axis === 'force' ? [{ channel, index }] : [],
    );
    const { start, end } = closed.span;
    const rate = recent.header.promisedRate;
    const instant = (sample: number) => new Date(startedAt + (1000 * sample) / rate).toISOString() as UtcInstant;
    const entries = day === undefined ? [] : await lab.store.dayEntries.ofDay(day.id);
    const entry = entries.find((one) => one.person === closed.person && one.test === test);
    const samples = recent;
    await keepTrial(
      lab,
      {
        closed,
        recorded: {
          sampleRate: closed.sampleRate,
          channels: channels.map(({ channel }) => channel),
          raw: channels.map(({ index }) => samples.copy(index, start, end)),
        },
        startedAt: instant(start),
        endedAt: instant(closed.result.events === undefined ? end : start + closed.result.events.end),
        capture: capture.id,
        rig: capture.rig,
        person: closed.person,
        protocol: protocolOf(test),
        method,
        setup: entry?.setup ?? {},
        ...(entry === undefined ? {} : { entry }),
      },
      stationActor,
    );
    kept++;
  };
  const take = async (test: string, outputs: readonly EngineOutput[] | undefined) => {
    for (const output of outputs ?? []) {
      if (output.kind === 'trial-closed') await keep(test, output.trial);
      if (output.kind === 'trial-reviewed') await review(lab, capture.id, output.trial);
    }
  };

  for await (const packet of journal.packets()) {
    if (packet.kind === 'header') {
      recent ??= new RecentSamples(packet);
      startedAt = Date.parse(packet.wallClock);
    } else if (packet.kind === 'samples') recent?.samples(packet);
    else if (packet.kind === 'gap') recent?.gap(packet);
    if (packet.kind === 'mark') {
      const told = packet.label === inputLabel ? inputOf(packet.data) : undefined;
      if (told !== undefined) await take(told.test, engines.get(told.test)?.step(told.input));
      continue;
    }
    for (const [test, engine] of engines) await take(test, engine.step({ kind: 'packet', packet }));
  }
  // What was under way when the station stopped ends here, by rule.
  const at = live.ports.clock.monotonic();
  const lost = { kind: 'status', state: 'lost', words: 'The station stopped.', at } as const;
  for (const [test, engine] of engines) await take(test, engine.step({ kind: 'packet', packet: lost }));
  return kept;
}
