import { isDeepStrictEqual } from 'node:util';
import { isPlateForce, type SourceDescription, streamChannelsOf } from '@sthene/capture';
import type {
  CheckExtra,
  PlatesNow,
  RigCheckBegin,
  RigCheckDraft,
  RigCheckView,
  rigCheckBegin,
} from '@sthene/contract';
import {
  type CheckStep,
  checkPlan,
  gravityEntered,
  gravityOfPlace,
  isReadingOf,
  judgeCheck,
  type LimitValues,
  type LoadReading,
  limitsWith,
  meanOf,
  type ReferenceMass,
  type RigCheckDocument,
  restFigures,
  type SiteGravity,
  tapFigures,
} from '@sthene/core';
import type { RigCheck } from '@sthene/store';
import type { z } from 'zod';
import { ProblemError, problems } from '../../server/problem-error.ts';
import type { LiveLab } from '../live-lab.ts';
import type { RigRuntime } from '../rig/rig-runtime.ts';
import { checkView } from './check-views.ts';
import { dropDraft, type KeptDraft, readDraft, writeDraft } from './draft-file.ts';
import { documentOf, draftView, loadOf } from './draft-view.ts';
import { channelsNow, placesOnPlates, zerosNow } from './place-now.ts';
import { plateReading, plateSamples, platesOf, restedReading, restNeeded } from './plate-samples.ts';
import { showCheckSettings } from './settings.ts';
import { correctionInForce } from './standing.ts';
import { draftOf, measuring, mustMeasure } from './under-way.ts';
import { clearVirtual } from './virtual-acts.ts';

function siteOf(
  gravity: RigCheckBegin['gravity'],
  kept: { readonly value: number; readonly uncertainty: number },
): SiteGravity {
  if (gravity.from === 'place' && gravity.latitude !== undefined && gravity.altitude !== undefined)
    return gravityOfPlace(gravity.latitude, gravity.altitude);
  return gravity.value === kept.value ? gravityEntered(gravity.value, kept.uncertainty) : gravityEntered(gravity.value);
}

/** Begins a check: the empty plates are zeroed and looked at; of a closed rig readings can only be typed. */
export async function beginCheck(
  live: LiveLab,
  id: string,
  asked: z.infer<typeof rigCheckBegin>,
): Promise<RigCheckDraft> {
  const { lab } = live;
  await rigMustBe(live, id);
  if (live.turns.has(id)) throw new ProblemError(409, 'not-now', 'Somebody is on this rig.', 'End the turn first.');
  if (live.loaded?.day.rigs.includes(id) === true)
    throw new ProblemError(
      409,
      'day-is-open',
      'This rig is on the open day: somebody may be called to it while masses stand on it.',
      'Close the day first.',
    );
  if ((await readDraft(lab, id)) !== undefined)
    throw new ProblemError(
      409,
      'check-under-way',
      'A check is being made on this rig.',
      'Go on with it, or throw it away.',
    );
  if (new Set(asked.masses.map((one) => one.id)).size < asked.masses.length)
    throw problems.invalid('Two masses have the same id.');
  // Only a rig that is closed is read by typing; one that is just starting is waited for.
  const runtime = live.rigs.has(id) ? mustMeasure(live, id) : undefined;
  const plates = runtime === undefined ? await platesOfSources(live, id) : platesOf(runtime);
  if (plates.length === 0)
    throw new ProblemError(
      422,
      'no-force-channel',
      'This rig has no plate that measures a vertical force.',
      'Look at its sources.',
    );
  const zeros = Object.fromEntries(
    plates.map((plate) => [plate, runtime === undefined ? 0 : restedReading(runtime, plate, 0).mean]),
  );
  const inForce = runtime === undefined ? undefined : await correctionInForce(lab, id);
  const settings = await showCheckSettings(lab);
  const document = {
    ...{ schema: 'sthene.rig-check/1', plates, gravity: siteOf(asked.gravity, settings.gravity) },
    ...{ airDensity: asked.airDensity, masses: asked.masses, limits: limitsWith(settings.limits as LimitValues) },
    ...{ corrected: inForce?.plates ?? [], readings: [], taps: [], balance: [], cell: [] },
    rest: runtime === undefined ? [] : plates.flatMap((plate) => restOf(runtime, plate, zeros[plate] ?? 0)),
  } as unknown as KeptDraft['document'];
  const draft: KeptDraft = {
    ...{ rig: id, by: asked.by, startedAt: live.ports.clock.wall(), document, zeros },
    ...(runtime === undefined ? {} : { channelZeros: zerosNow(runtime) }),
    steps: checkPlan({
      plates,
      masses: asked.masses as ReferenceMass[],
      series: asked.series,
      spots: asked.spots,
    }) as KeptDraft['steps'],
  };
  await writeDraft(lab, draft);
  return draftView(draft);
}

async function platesOfSources({ lab }: LiveLab, id: string): Promise<string[]> {
  const rig = await lab.store.rigs.get(id);
  const sources = await Promise.all((rig?.sources ?? []).map((one) => lab.store.sources.get(one)));
  const channels = sources.flatMap((source) =>
    source === undefined ? [] : streamChannelsOf(source.description as SourceDescription),
  );
  return [...new Set(channels.filter(isPlateForce).map(({ plate }) => plate))];
}

function restOf(runtime: RigRuntime, plate: string, zero: number): RigCheckDocument['rest'] {
  const samples = plateSamples(runtime, plate, restNeeded).filter((value) => !Number.isNaN(value));
  const found = restFigures(samples, runtime.stream.rate);
  return found.ok ? [{ ...found.value, mean: found.value.mean - zero, plate }] : [];
}

async function rigMustBe({ lab }: LiveLab, id: string): Promise<void> {
  if ((await lab.store.rigs.get(id)) === undefined) throw problems.notFound('rig');
}

/** What each plate of a check shows now. */
export async function showPlates(live: LiveLab, id: string): Promise<PlatesNow> {
  await rigMustBe(live, id);
  const runtime = measuring(live, id);
  const { zeros = {}, channelZeros } = (await readDraft(live.lab, id)) ?? {};
  const plates = runtime === undefined ? [] : platesOf(runtime);
  const now = runtime === undefined ? { channels: [], shown: [] } : channelsNow(runtime);
  const places = placesOnPlates(now.channels, now.shown, channelZeros ?? {});
  return {
    needed: restNeeded,
    plates: plates.flatMap((plate) => {
      const found = runtime && plateReading(runtime, plate, zeros[plate] ?? 0);
      const place = places.get(plate);
      return found === undefined ? [] : [{ plate, ...found, ...(place === undefined ? {} : { place }) }];
    }),
  };
}

/** A reading further from its load than this was probably made under another one: a share, and newtons. */
const far = { share: 0.15, newtons: 15 };

/** Reads one step. The draft takes what the samples say at this moment; nobody can send a number as if it were read. */
export async function readStep(
  live: LiveLab,
  id: string,
  asked: { readonly step: CheckStep; readonly typed?: number | undefined; readonly anyway: boolean },
): Promise<RigCheckDraft> {
  const draft = await draftOf(live, id);
  const document = documentOf(draft);
  const step = draft.steps.find((one) => same(one, asked.step));
  if (step === undefined) throw problems.notFound('step of this check');
  const { force, uncertainty } = loadOf(document, step);
  if (document.readings.some((one) => isReadingOf(one, step, force)))
    throw new ProblemError(409, 'step-already-read', 'This step has been read.', 'Take its reading back first.');
  const found =
    asked.typed === undefined
      ? restedReading(mustMeasure(live, id), step.plate, draft.zeros[step.plate] ?? 0)
      : { mean: asked.typed, sd: undefined };
  if (!asked.anyway && Math.abs(found.mean - force) > Math.max(far.newtons, far.share * force))
    throw new ProblemError(
      409,
      'reading-far-off',
      `The plate "${step.plate}" shows ${found.mean.toFixed(1)} N where ${force.toFixed(1)} N were expected.`,
      'Look whether these masses stand on this plate. If they do, read it all the same.',
    );
  const reading: LoadReading = {
    ...{ plate: step.plate, series: step.series, direction: step.direction, spot: step.spot },
    ...{ load: force, loadUncertainty: uncertainty, reading: found.mean },
    ...(found.sd === undefined ? {} : { sd: found.sd }),
    origin: asked.typed === undefined ? 'samples' : 'typed',
  };
  return keep(live, draft, { ...document, readings: [...document.readings, reading] });
}

const same = (a: CheckStep, b: CheckStep): boolean =>
  a.plate === b.plate &&
  a.series === b.series &&
  a.direction === b.direction &&
  a.spot === b.spot &&
  a.masses.join() === b.masses.join();

async function keep(live: LiveLab, draft: KeptDraft, document: RigCheckDocument): Promise<RigCheckDraft> {
  const next = { ...draft, document: document as unknown as KeptDraft['document'] };
  await writeDraft(live.lab, next);
  return draftView(next);
}

/** Takes the last reading back. */
export async function undoReading(live: LiveLab, id: string): Promise<RigCheckDraft> {
  const draft = await draftOf(live, id);
  const document = documentOf(draft);
  return keep(live, draft, { ...document, readings: document.readings.slice(0, -1) });
}

/** Seconds that are looked at for a tap. */
const tapSeconds = 4;

/** Empty plates, a tap, a person on one plate, a pull against a reference cell; the newest of each takes the place of an earlier one. */
export async function lookFurther(live: LiveLab, id: string, extra: CheckExtra): Promise<RigCheckDraft> {
  const draft = await draftOf(live, id);
  const document = documentOf(draft);
  const runtime = mustMeasure(live, id);
  const zeroOf = (plate: string) => draft.zeros[plate] ?? 0;
  switch (extra.kind) {
    case 'rest': {
      for (const plate of document.plates) restedReading(runtime, plate, zeroOf(plate));
      return keep(live, draft, {
        ...document,
        rest: document.plates.flatMap((plate) => restOf(runtime, plate, zeroOf(plate))),
      });
    }
    case 'tap': {
      const samples = plateSamples(runtime, extra.plate, tapSeconds);
      // A sample that is missing is no tap.
      const first = samples.find((value) => !Number.isNaN(value)) ?? 0;
      samples.forEach((value, i) => {
        if (Number.isNaN(value)) samples[i] = samples[i - 1] ?? first;
      });
      const found = tapFigures(samples, runtime.stream.rate);
      if (!found.ok)
        throw new ProblemError(
          422,
          'no-tap-seen',
          'No ringing was seen in the last seconds.',
          'Tap the plate once with something hard, then press at once.',
        );
      const taps = document.taps.filter(({ plate }) => plate !== extra.plate);
      return keep(live, draft, { ...document, taps: [...taps, { ...found.value, plate: extra.plate }] });
    }
    case 'person': {
      const weight = heldStill(runtime, [extra.plate], zeroOf);
      if (weight === undefined)
        throw new ProblemError(
          409,
          'plate-not-at-rest',
          `Nobody stands still on the plate "${extra.plate}".`,
          `Stand still for ${restNeeded} s.`,
        );
      const balance = document.balance.filter(({ plate }) => plate !== extra.plate);
      return keep(live, draft, { ...document, balance: [...balance, { plate: extra.plate, weight }] });
    }
    case 'cell': {
      const plates = heldStill(runtime, document.plates, zeroOf);
      if (plates === undefined)
        throw new ProblemError(
          409,
          'plate-not-at-rest',
          'No pull is held still.',
          `Hold it still for ${restNeeded} s, and type what the cell shows meanwhile.`,
        );
      return keep(live, draft, { ...document, cell: [...document.cell, { plates, cell: extra.cell }] });
    }
  }
}

/** Less than this is nobody, N. */
const leastHeld = 100;

/**
 * A person sways, whether standing or pulling: the last two thirds of the time are averaged where the third before them agrees as the
 * halves of a weighing do. That third shows that nothing was still on its way, and is in no mean.
 *
 * @returns force of the plates together, N; undefined where nothing is held still on them
 */
function heldStill(
  runtime: RigRuntime,
  plates: readonly string[],
  zeroOf: (plate: string) => number,
): number | undefined {
  const each = plates.map((plate) => ({ zero: zeroOf(plate), samples: plateSamples(runtime, plate, restNeeded) }));
  const length = each[0]?.samples.length ?? 0;
  if (length < restNeeded * runtime.stream.rate - 1) return undefined;
  const third = Math.floor(length / 3);
  const mean = (from: number, to: number) =>
    each.reduce((sum, { zero, samples }) => sum + meanOf(samples, from, to) - zero, 0);
  const [before, held] = [mean(0, third), mean(third, length)];
  // A missing sample is no rest either.
  return held > leastHeld && Math.abs(before - held) <= 0.0025 * held ? held : undefined;
}

/** Kept already, and the station was stopped before its draft was gone; an earlier check may have read the very same. */
const isThisOne = ({ at, document }: RigCheck, draft: KeptDraft): boolean =>
  at > draft.startedAt && isDeepStrictEqual(document, documentOf(draft));

/** Keeps the check for good. */
export async function finishCheck(
  live: LiveLab,
  id: string,
  { note, by }: { note: string; by: string },
): Promise<RigCheckView> {
  const { lab } = live;
  const draft = await draftOf(live, id);
  const document = documentOf(draft);
  if (document.readings.length === 0)
    throw new ProblemError(409, 'check-without-readings', 'Nothing has been read yet.', 'Read a step first.');
  const newest = (await lab.store.rigChecks.ofRig(id)).at(-1);
  const kept =
    newest !== undefined && isThisOne(newest, draft)
      ? newest
      : await lab.store.rigChecks.add({ rig: id, document, result: judgeCheck(document), note }, await lab.actor(by));
  await dropDraft(lab, id);
  clearVirtual(live, id);
  await live.loadCheck(id);
  return checkView(lab, kept);
}

export async function dropCheck(live: LiveLab, id: string): Promise<{ dropped: boolean }> {
  const there = (await readDraft(live.lab, id)) !== undefined;
  await dropDraft(live.lab, id);
  clearVirtual(live, id);
  return { dropped: there };
}
