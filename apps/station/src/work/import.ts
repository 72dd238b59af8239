import type { ImportOutcome, ImportRequest, Mapping } from '@sthene/contract';
import {
  type AnalysisRequest,
  analyse,
  defaultJumpMethod,
  defaultMethod,
  forcesOf,
  type JumpMethod,
  type Method,
  type Notice,
  type Protocol,
  protocolRegistry,
  reasons,
  type TrialResult,
  type UtcInstant,
  unitOfForces,
} from '@sthene/core';
import { bytesOf, detectFormats, type Format, formats, type NamedRecording } from '@sthene/formats';
import type { Actor, Repositories, Session } from '@sthene/store';
import type { OpenLab } from '../labs/open-lab.ts';
import { ProblemError, problems } from '../server/problem-error.ts';
import { jumpSetupOf, versionsOf } from './analyse-trial.ts';
import { findJumpMethod, findMethod, keepMethod, stillCurrent, useMethod } from './methods.ts';
import { createPerson } from './people.ts';
import type { Reading } from './read-recording.ts';
import { headlineOf } from './sessions.ts';
import { rememberMapping } from './templates.ts';
import { forgetUpload, type ReceivedFile, received } from './upload.ts';

/** One effort that an import would make a trial of. */
interface PlannedTrial {
  readonly label: string;
  readonly recording: NamedRecording['recording'];
  readonly result: TrialResult;
  /** Kept where a file holds several efforts, so that each is judged on its own piece again. */
  readonly span?: TrialResult['span'];
}

interface Plan {
  readonly file: ReceivedFile;
  readonly format: Format;
  readonly protocol: Protocol;
  readonly trials: readonly PlannedTrial[];
  readonly recordings: number;
  readonly skipped: { label: string; why: string }[];
  readonly notices: readonly Notice[];
  /** The session the trials join; absent: one of their own. */
  readonly session?: Session;
}

/** What an import would do. Nothing is stored. */
export async function dryRun(lab: OpenLab, request: ImportRequest): Promise<ImportOutcome> {
  const recipes = (await jumpRecipes(lab, request)) ?? { method: await findMethod(lab, request.method) };
  return outcome(await planImport(lab, request, recipes), true);
}

/** Imports a received file: the original bytes, then its trials with their results, as one act. */
export async function importUpload(lab: OpenLab, request: ImportRequest): Promise<ImportOutcome> {
  const jumps = await jumpRecipes(lab, request);
  const { method, sha256 } = jumps ? { method: jumps.method, sha256: undefined } : await useMethod(lab, request.method);
  if (jumps) await keepMethod(lab, jumps.jumpMethod);
  const plan = await planImport(lab, request, jumps ?? { method });
  if (plan.trials.length === 0) {
    // everything in it is in the lab already: the copy that was sent is of no further use
    if (plan.skipped.length > 0) await forgetUpload(lab, plan.file.sha256);
    return outcome(plan, false);
  }
  const actor = await lab.actor(request.by);
  await keepOriginal(lab, plan, actor);
  const made = await lab.store.transaction(async (inside) => {
    if (request.method === undefined && sha256 !== undefined) await stillCurrent(inside, sha256);
    return storeTrials(inside, lab, plan, request, actor);
  });
  if (request.remember) await rememberMapping(lab, request.remember.signature, request.remember.name, request.mapping);
  await forgetUpload(lab, plan.file.sha256);
  return outcome(plan, false, made);
}

/** How the trials are judged; `jumpMethod` in jump tests. */
type Recipes = Pick<AnalysisRequest, 'method' | 'jumpMethod'>;

/** The jump method of an import of jumps: the one asked for, else the built-in one. Undefined for every other test. */
async function jumpRecipes(
  lab: OpenLab,
  { mapping, method }: ImportRequest,
): Promise<{ readonly method: Method; readonly jumpMethod: JumpMethod } | undefined> {
  if (protocolRegistry.get(mapping.test)?.jump === undefined) return undefined;
  const asked = method === undefined ? undefined : await findJumpMethod(lab, method);
  if (method !== undefined && asked === undefined) throw problems.notFound('jump method');
  return { method: defaultMethod, jumpMethod: asked ?? defaultJumpMethod };
}

async function planImport(lab: OpenLab, request: ImportRequest, recipes: Recipes): Promise<Plan> {
  const file = await received(lab, request.upload);
  const answers = await detectFormats(bytesOf(file.bytes, file.name), formats);
  const format = answers.find(({ detection }) => detection.match !== 'no')?.format;
  const protocol = protocolRegistry.get(request.mapping.test);
  if (protocol === undefined) throw problems.notFound('test');
  if (format === undefined)
    throw new ProblemError(
      422,
      'format-not-recognised',
      'No format recognises this file.',
      'See what each format missed, or save it as text with a header row.',
    );
  const read = await format.read(bytesOf(file.bytes, file.name), request.mapping.reading);
  if (!read.ok) throw new ProblemError(422, read.error.code, read.error.message, read.error.next);
  const session = request.session === undefined ? undefined : await sessionToJoin(lab, request.session, protocol);
  const known = await lab.store.trials.ofRecording(file.sha256);
  const skipped: Plan['skipped'] = [];
  const trials: PlannedTrial[] = [];
  const notices: Notice[] = [];
  for (const named of read.recordings) {
    notices.push(...named.recording.notices);
    if (request.onDuplicate === 'skip' && known.some((trial) => (trial.recordingLabel ?? '') === named.label)) {
      skipped.push({ label: named.label, why: 'This recording is in the lab already.' });
      continue;
    }
    trials.push(
      ...effortsOf(named, request.mapping, protocol, recipes, weighed(request.mapping, session), lab.gravity, session),
    );
  }
  const plan = { file, format, protocol, trials, recordings: read.recordings.length, skipped, notices };
  return session === undefined ? plan : { ...plan, session };
}

/** The session that trials are added to. Trials of another test stay apart: they could never be compared. */
async function sessionToJoin(lab: OpenLab, id: string, protocol: Protocol): Promise<Session> {
  const session = await lab.store.sessions.get(id);
  if (session === undefined) throw problems.notFound('session');
  if (session.resultsOnly)
    throw new ProblemError(
      409,
      'session-without-curves',
      'That session holds received results without curves; trials are never added to it.',
      'Let these trials make a session of their own.',
    );
  if (session.protocol.id !== protocol.id) {
    throw new ProblemError(
      409,
      'session-of-another-test',
      'That session is of another test.',
      'Choose the test of the session, or let these trials make a session of their own.',
    );
  }
  return session;
}

type Weight = NonNullable<AnalysisRequest['bodyWeight']> | undefined;

/** Body weight of the trials: a session has one for all of its trials, a new one takes what was given. */
function weighed(mapping: Mapping, session: Session | undefined): Weight {
  if (session !== undefined)
    return session.bodyWeight && { value: session.bodyWeight.value, from: session.bodyWeight.from };
  return mapping.bodyWeight === undefined ? undefined : { value: mapping.bodyWeight, from: 'given' };
}

function effortsOf(
  { label, recording }: NamedRecording,
  mapping: Mapping,
  protocol: Protocol,
  recipes: Recipes,
  bodyWeight: Weight,
  gravity: number,
  session: Session | undefined,
): PlannedTrial[] {
  const forces = forcesOf(recording, selectionOf(mapping), unitOfForces(recording, selectionOf(mapping), protocol));
  if (!forces.ok) throw new ProblemError(422, forces.reason, reasons[forces.reason].means, reasons[forces.reason].next);
  const { trials } = analyse({
    forces: forces.value,
    protocol,
    ...recipes,
    ...(protocol.jump === undefined ? {} : { jumpSetup: jumpSetupOf(session?.setup) }),
    gravity,
    efforts: mapping.efforts,
    ...(bodyWeight === undefined ? {} : { bodyWeight }),
  });
  return trials.map((result) => ({
    label,
    recording,
    result,
    ...(mapping.efforts === 'all' ? { span: result.span } : {}),
  }));
}

/** The chosen inputs without the fields that were left open. */
const selectionOf = (mapping: Mapping) => ({
  inputs: mapping.inputs.map((input) => JSON.parse(JSON.stringify(input)) as never),
});

async function keepOriginal(lab: OpenLab, plan: Plan, actor: Actor): Promise<void> {
  const [first] = plan.trials;
  if (first === undefined) return;
  await lab.store.recordings.add(
    {
      bytes: plan.file.bytes,
      fileName: plan.file.name,
      mediaType: plan.format.mediaType,
      format: plan.format.id,
      sampleRate: first.recording.sampleRate,
      sampleCount: first.recording.sampleCount,
    },
    actor,
  );
}

async function storeTrials(
  inside: Repositories,
  lab: OpenLab,
  plan: Plan,
  request: ImportRequest,
  actor: Actor,
): Promise<{ session: string; ids: string[] }> {
  const session =
    plan.session?.id ??
    (
      await inside.sessions.add(
        {
          person:
            'id' in request.person ? request.person.id : (await createPerson(inside, request.person.create, actor)).id,
          protocol: { id: plan.protocol.id, version: plan.protocol.version },
          startedAt: startOf(plan, request),
          gravity: lab.gravity,
          ...(request.mapping.bodyWeight === undefined
            ? {}
            : { bodyWeight: { value: request.mapping.bodyWeight, from: 'given' as const } }),
        },
        actor,
      )
    ).id;
  const ids: string[] = [];
  for (const planned of plan.trials) {
    const trial = await inside.trials.add(
      {
        session,
        effort: 'maximal',
        recording: plan.file.sha256,
        ...(planned.label === '' ? {} : { recordingLabel: planned.label }),
        reading: { ...request.mapping.reading } as Reading,
        forceSelection: selectionOf(request.mapping),
        ...(planned.span === undefined ? {} : { span: planned.span }),
      },
      actor,
    );
    await inside.results.add(
      { trial: trial.id, document: planned.result, versions: versionsOf(planned.result) },
      actor,
    );
    ids.push(trial.id);
  }
  return { session, ids };
}

function startOf(plan: Plan, request: ImportRequest): UtcInstant {
  const given = request.startedAt === undefined ? undefined : new Date(request.startedAt);
  if (given !== undefined && Number.isNaN(given.getTime()))
    throw problems.invalid('The time of the session is not a date and time.');
  return (given?.toISOString() ?? plan.trials[0]?.recording.recordedAt ?? new Date().toISOString()) as UtcInstant;
}

function outcome(plan: Plan, dry: boolean, made?: { session: string; ids: string[] }): ImportOutcome {
  return {
    dryRun: dry,
    recordings: plan.recordings,
    trials: plan.trials.map(({ label, result }, i) => {
      const peak = result.metrics.peak_force;
      const id = made?.ids[i];
      return {
        label,
        ...(id === undefined ? {} : { id }),
        verdict: result.verdict,
        ...(peak && 'value' in peak ? { peakForce: peak.value } : {}),
        unit: peak && 'value' in peak ? peak.unit : 'N',
        ...headlineOf(result),
        ...(result.reason === undefined ? {} : { reason: result.reason }),
        ...(dry ? { result: result as ImportOutcome['trials'][number]['result'] } : {}),
      };
    }),
    ...(made === undefined ? {} : { session: made.session }),
    skipped: plan.skipped,
    notices: plan.notices.map((one) => ({ code: one.code, message: one.message })),
  };
}
