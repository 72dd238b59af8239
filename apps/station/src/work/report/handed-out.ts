import type { AthleteChange, ReportKind, ReportQuery } from '@sthene/contract';
import type { HandedOut } from '@sthene/store';
import { type OpenLab, stationActor } from '../../labs/open-lab.ts';
import { athleteView } from '../athlete/athlete.ts';
import { squadTable } from '../athlete/squad.ts';

type Page = Omit<HandedOut, 'id' | 'at'>;

/** Keeps what a page that leaves the lab says of athletes, so that a change of method can tell which pages would now read differently. */
export async function keepHandedOut(lab: OpenLab, kind: ReportKind, asked: ReportQuery): Promise<void> {
  const pages = kind === 'athlete' ? await ofAthlete(lab, asked) : kind === 'squad' ? await ofSquad(lab, asked) : [];
  if (pages.length > 0) await lab.store.handedOut.add(pages, stationActor);
}

async function ofAthlete(lab: OpenLab, asked: ReportQuery): Promise<Page[]> {
  const id = (await lab.store.people.byCode(asked.person ?? ''))?.id ?? asked.person ?? '';
  const { person, test, metric, sessions, changes } = await athleteView(lab, id, asked);
  const newest = sessions.findLast(({ value, unit }) => value !== undefined && unit === metric.unit);
  if (test === undefined || newest?.value === undefined) return [];
  const reference = asked.against ?? 'last';
  const change = changes.find((one) => one.reference === reference);
  return [page('athlete', person.id, newest.id, { test, metric }, reference, newest.value, change)];
}

async function ofSquad(lab: OpenLab, asked: ReportQuery): Promise<Page[]> {
  const { test, metric, rows } = await squadTable(lab, asked);
  return rows.flatMap(({ person, value, change }) =>
    test === undefined || value === undefined
      ? []
      : [page('squad', person.id, value.session, { test, metric }, change?.reference ?? 'last', value.value, change)],
  );
}

function page(
  kind: Page['kind'],
  person: string,
  session: string,
  { test, metric }: { readonly test: string; readonly metric: { readonly id: string; readonly unit: string } },
  reference: string,
  value: number,
  change: AthleteChange | undefined,
): Page {
  return {
    ...{ kind, person, session, test, metric: metric.id, reference, value, unit: metric.unit },
    ...(change === undefined ? {} : { word: change.word }),
  };
}
