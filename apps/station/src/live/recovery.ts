import { join } from 'node:path';
import type { ClosedTrial } from '@sthene/capture';
import type { DayPlan } from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import type { Capture } from '@sthene/store';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import { useMethod } from '../work/methods.ts';
import { openDay } from './day/day-work.ts';
import { planFor, recipesOf, runPlan, testOf } from './day/plan.ts';
import type { LiveLab } from './live-lab.ts';
import type { RecoveredCapture } from './ports.ts';
import { replay } from './replay.ts';
import { endSampleOf, keepReview, keepTrial } from './rig/keep-trial.ts';
import { recoverFile } from './rig/recover-file.ts';
import { journalFolder } from './rig/rig-work.ts';
import { spanOf } from './rig/spans.ts';

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
  const file = await recoverFile(live, capture, journal);
  const kept = journal === undefined || file !== undefined ? 0 : await keepEfforts(live, capture, journal);
  const words =
    file ??
    (journal === undefined
      ? 'The station stopped before the first sample was safe.'
      : `${journal.words} ${kept === 0 ? 'No effort was waiting to be kept.' : `Efforts kept now: ${kept}.`}`);
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
  const planned = (day?.plans as DayPlan[] | undefined) ?? [await planFor(lab, 'imtp')];
  const plans = await Promise.all(planned.map((plan) => runPlan(lab, plan)));
  const { method } = await useMethod(lab);
  const handsFree = (day?.settings as { readonly handsFree?: boolean } | undefined)?.handsFree === true;
  const entries = day === undefined ? [] : await lab.store.dayEntries.ofDay(day.id);
  const known = new Set((await lab.store.origins.ofCapture(capture.id)).map(({ span }) => span.start));
  let kept = 0;
  const at = live.ports.clock.monotonic();
  const cutOff = { kind: 'status', state: 'lost', words: 'The station stopped.', at } as const;
  const settings = { plans, method, gravity: lab.gravity, handsFree, cutOff };
  for await (const { test, output, recent, startedAt } of replay(journal.packets(), settings)) {
    if (output.kind === 'trial-reviewed') await review(lab, capture.id, output.trial);
    if (output.kind !== 'trial-closed' || recent === undefined || known.has(output.trial.span.start)) continue;
    const { trial: closed } = output;
    const began = Date.parse(startedAt ?? capture.startedAt);
    const instant = (sample: number) =>
      new Date(began + (1000 * sample) / recent.header.promisedRate).toISOString() as UtcInstant;
    const { start } = closed.span;
    const entry = entries.find((one) => one.person === closed.person && one.test === test);
    const plan = plans.find((one) => one.test === test);
    if (plan === undefined) continue;
    const protocol = testOf(plan);
    await keepTrial(
      lab,
      {
        closed,
        recorded: spanOf(recent, closed.span, protocol.parameters?.unit ?? 'N', closed.sampleRate),
        startedAt: instant(start),
        endedAt: instant(endSampleOf(closed)),
        capture: capture.id,
        rig: capture.rig,
        person: closed.person,
        protocol,
        document: plan.document,
        ...recipesOf(method, plan),
        setup: entry?.setup ?? {},
        ...(entry === undefined ? {} : { entry }),
      },
      stationActor,
    );
    kept++;
  }
  return kept;
}
