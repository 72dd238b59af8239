import { type AdoptedCorrection, correctedChannels } from '@sthene/capture';
import type { CorrectionEffect, effectApply, effectQuery } from '@sthene/contract';
import { conversionFactor, type Forces, headlineMetric, meanOf, type TrialResult } from '@sthene/core';
import type { Actor, RigCorrection, Session, TrialView } from '@sthene/store';
import type { z } from 'zod';
import type { OpenLab } from '../../labs/open-lab.ts';
import { ProblemError, problems } from '../../server/problem-error.ts';
import { analyseTrial, versionsOf } from '../../work/analyse-trial.ts';
import { readForces } from '../../work/forces-of-trial.ts';
import type { Breath } from '../../work/method/preview.ts';
import { nameOf } from '../../work/people.ts';
import { readRecording } from '../../work/read-recording.ts';
import type { LiveLab } from '../live-lab.ts';
import type { OriginFacts } from '../rig/keep-trial.ts';

type EffectQuery = z.infer<typeof effectQuery>;

/** So many efforts are judged again in one go; a longer span is done piece by piece. */
const most = 400;

/** One effort as it stands and as it would be. */
interface Rejudged {
  readonly view: TrialView;
  readonly origin: string;
  readonly facts: OriginFacts;
  readonly before: TrialResult;
  readonly after: TrialResult;
  /** Weight with the correction over that without. */
  readonly weightRatio: number;
}

/** What a correction would do to earlier sessions of its rig. Nothing is changed. */
export async function correctionEffect(
  live: LiveLab,
  rig: string,
  asked: EffectQuery,
  breath: Breath,
): Promise<CorrectionEffect> {
  const { lab } = live;
  const correction = await correctionOf(lab, rig, asked.correction);
  const found = await rejudgedSessions(lab, rig, correction, asked, breath);
  return effectOf(lab, found);
}

/**
 * Judges them again for good: each effort keeps its raw samples and earlier results and gets a new result; its channels, zeros and
 * weight are kept with the correction, as a further state of its origin. Decisions of people stay in force.
 */
export async function applyCorrection(
  live: LiveLab,
  rig: string,
  { reason, by, ...asked }: z.infer<typeof effectApply>,
  breath: Breath,
): Promise<CorrectionEffect> {
  const { lab } = live;
  if (live.rigs.size > 0 && live.loaded?.day.rigs.includes(rig) === true)
    throw new ProblemError(409, 'day-is-open', 'This rig is on the open day.', 'Close the day first.');
  const correction = await correctionOf(lab, rig, asked.correction);
  const found = await rejudgedSessions(lab, rig, correction, asked, breath);
  const actor = await lab.actor(by);
  const kept: RejudgedSession[] = [];
  for (const one of found) if (await keepSession(lab, one, actor, reason)) kept.push(one);
  const leftOut = found.length - kept.length;
  return { ...(await effectOf(lab, kept)), ...(leftOut === 0 ? {} : { leftOut }) };
}

async function correctionOf({ store }: OpenLab, rig: string, id: string): Promise<RigCorrection> {
  const found = (await store.rigChecks.corrections(rig)).find((one) => one.id === id);
  if (found === undefined) throw problems.notFound('correction of this rig');
  return found;
}

interface RejudgedSession {
  readonly session: Session;
  readonly trials: readonly Rejudged[];
}

async function rejudgedSessions(
  lab: OpenLab,
  rig: string,
  correction: AdoptedCorrection,
  { from, until }: EffectQuery,
  breath: Breath,
): Promise<RejudgedSession[]> {
  const out: RejudgedSession[] = [];
  let [count, after] = [0, undefined as string | undefined];
  do {
    const page = await lab.store.sessions.list({
      rig,
      ...(from === undefined ? {} : { from: `${from}T00:00:00.000Z` }),
      ...(until === undefined ? {} : { until: `${until}T23:59:59.999Z` }),
      ...(after === undefined ? {} : { after }),
      limit: 500,
    });
    for (const { session } of page.items) {
      const trials: Rejudged[] = [];
      for (const { id } of await lab.store.trials.ofSession(session.id)) {
        // An effort on a rig is worth more than this.
        await breath();
        const one = await rejudged(lab, id, correction);
        if (one === undefined) continue;
        trials.push(one);
        if (++count > most)
          throw new ProblemError(
            422,
            'span-too-large',
            `More than ${most} efforts of this rig lie in these days.`,
            'Choose fewer days, and go on with the next ones afterwards.',
          );
      }
      if (trials.length > 0) out.push({ session, trials });
    }
    after = page.next;
  } while (after !== undefined);
  return out;
}

/** One effort under the correction; undefined where it has it already, was imported, or has no result to hold it against. */
async function rejudged(lab: OpenLab, trial: string, correction: AdoptedCorrection): Promise<Rejudged | undefined> {
  const view = await lab.store.trials.view(trial);
  const origin = await lab.store.origins.ofTrial(trial);
  if (view?.result === undefined || origin === undefined || view.trial.recording === undefined) return undefined;
  const before = origin.facts as unknown as OriginFacts;
  const channels = correctedChannels(before.channels, correction);
  if (channels.every((one, i) => one.scale === before.channels[i]?.scale && one.offset === before.channels[i]?.offset))
    return undefined;
  const method = (await lab.store.methods.get(view.result.method))?.document;
  if (method === undefined) return undefined;
  const zeroed: OriginFacts = { ...before, channels, zeros: zerosOn(before, channels) };
  const read = (facts: OriginFacts) => readForces(lab, view.trial, view.session, facts, readRecording);
  const [plain, put] = [(await read(before)).forces, (await read(zeroed)).forces];
  const weightRatio = ratioOf(view.result.document, plain, put);
  const facts: OriginFacts = {
    ...zeroed,
    ...(before.bodyWeight === undefined ? {} : { bodyWeight: before.bodyWeight * weightRatio }),
  };
  const after = await analyseTrial(
    lab,
    put,
    view.trial,
    sessionWith(view.session, weightRatio),
    method,
    view.effective,
    facts,
  );
  return { view, origin: origin.id, facts, before: view.result.document, after, weightRatio };
}

/** The zero of each channel, taken from the same raw values, on the corrected channels. */
function zerosOn({ channels, zeros, unit }: OriginFacts, corrected: OriginFacts['channels']): OriginFacts['zeros'] {
  return Object.fromEntries(
    Object.entries(zeros).map(([name, zero]) => {
      const at = channels.findIndex((one) => one.name === name);
      const [before, after] = [channels[at], corrected[at]];
      if (before === undefined || after === undefined) return [name, zero];
      const raw = zero / (before.scale * conversionFactor(before.unit, unit)) + before.offset;
      return [name, (raw - after.offset) * after.scale * conversionFactor(after.unit, unit)];
    }),
  );
}

/**
 * How the correction changes the weight. The stand-still is not in the recording of a pull; the quiet second before it is, with the
 * same person on the same plates, so the ratio of its means is taken.
 */
function ratioOf({ events }: TrialResult, plain: Forces, put: Forces): number {
  const quiet = events?.baseline.ok ? events.baseline.value : undefined;
  const [start, end] = quiet === undefined ? [0, Math.min(plain.total.length, 500)] : [quiet.start, quiet.end];
  const [before, after] = [meanOf(plain.total, start, end), meanOf(put.total, start, end)];
  return before > 0 && Number.isFinite(after / before) ? after / before : 1;
}

const sessionWith = (session: Session, ratio: number): Session =>
  session.bodyWeight === undefined
    ? session
    : { ...session, bodyWeight: { ...session.bodyWeight, value: session.bodyWeight.value * ratio } };

/** @returns false where somebody decided about one of its efforts meanwhile: the session is then left for the next time, as a whole */
function keepSession(
  lab: OpenLab,
  { session, trials }: RejudgedSession,
  actor: Actor,
  reason: string,
): Promise<boolean> {
  return lab.store.transaction(async (inside) => {
    for (const { view } of trials)
      if ((await inside.results.current(view.trial.id))?.id !== view.result?.id) return false;
    for (const { view, origin, facts, after } of trials) {
      await inside.origins.review(origin, facts as never, actor);
      await inside.results.add({ trial: view.trial.id, document: after, versions: versionsOf(after) }, actor);
    }
    const ratio = meanOf(trials.map(({ weightRatio }) => weightRatio));
    const { bodyWeight } = sessionWith(session, ratio);
    if (bodyWeight !== undefined && session.bodyWeight?.from === 'weighing')
      await inside.sessions.change(session.id, { bodyWeight }, actor, { reason });
    return true;
  });
}

async function effectOf(lab: OpenLab, found: readonly RejudgedSession[]): Promise<CorrectionEffect> {
  const names = new Map((await lab.store.people.list()).map((one) => [one.id, nameOf(one)]));
  const mean = (values: readonly number[]) => (values.length === 0 ? undefined : meanOf(values));
  return {
    trials: found.reduce((sum, { trials }) => sum + trials.length, 0),
    sessions: found.map(({ session, trials }) => {
      const metric = headlineMetric(session.protocol.id);
      const peaks = trials.flatMap(({ before, after }) => {
        const [old, next] = [before.metrics[metric], after.metrics[metric]];
        return old !== undefined && next !== undefined && 'value' in old && 'value' in next
          ? [{ before: old.value, after: next.value, unit: old.unit }]
          : [];
      });
      const [before, after] = [mean(peaks.map((one) => one.before)), mean(peaks.map((one) => one.after))];
      return {
        ...{ session: session.id, person: session.person, name: names.get(session.person) ?? '' },
        ...{ startedAt: session.startedAt, trials: trials.length, metric },
        ...(before === undefined || after === undefined ? {} : { before, after }),
        unit: peaks[0]?.unit ?? 'N',
      };
    }),
  };
}
