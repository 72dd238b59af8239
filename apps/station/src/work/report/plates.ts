import { createHash } from 'node:crypto';
import type { ReportQuery } from '@sthene/contract';
import { checkDue, checkHistory } from '@sthene/core';
import type { PlatesInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { showCheckSettings } from '../../live/rig-check/settings.ts';
import { isGood } from '../../live/rig-check/standing.ts';
import { problems } from '../../server/problem-error.ts';
import { missing } from './refusals.ts';

/** What the page of a check is made of: one check, or the newest of a rig. */
export async function platesInput(lab: OpenLab, { check, rig }: ReportQuery): Promise<PlatesInput> {
  if (!check && !rig) throw missing('rig', '"rig", an id, or "check", an id');
  const { store } = lab;
  const named = check ? await store.rigChecks.get(check) : undefined;
  // Another rig was chosen since: its newest check is meant.
  const kept = named !== undefined && (!rig || named.rig === rig) ? named : await newestOf(lab, rig);
  if (kept === undefined) throw problems.notFound('check of a rig');
  const of = await store.rigs.get(kept.rig);
  if (of === undefined) throw problems.notFound('rig');
  const sources = await Promise.all(of.sources.map((id) => store.sources.get(id)));
  const { interval } = await showCheckSettings(lab);
  // By the day of the check, so that the same page has the same bytes whenever it is made.
  const due = isGood(kept) ? checkDue(kept.at, interval, kept.at).at : undefined;
  const earlier = (await store.rigChecks.ofRig(kept.rig)).filter(({ at }) => at <= kept.at);
  return {
    rig: { name: of.name, letter: of.letter },
    sources: sources.flatMap((source) => source?.name ?? []),
    ...{ at: kept.at, by: await lab.nameOf(kept.by), note: kept.note, document: kept.document, result: kept.result },
    history: checkHistory(earlier),
    ...(due === undefined ? {} : { due }),
    sha256: createHash('sha256').update(JSON.stringify(kept.document)).digest('hex'),
  };
}

const newestOf = async ({ store }: OpenLab, rig: string | undefined) =>
  rig ? (await store.rigChecks.ofRig(rig)).at(-1) : undefined;
