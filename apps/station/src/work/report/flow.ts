import type { FlowFacts } from '@sthene/report';
import type { MetricPoint, SessionSummary } from '@sthene/store';
import type { OpenLab } from '../../labs/open-lab.ts';

interface Asked {
  readonly test: string;
  readonly metric: string;
  readonly belongs: (person: string) => boolean;
  /** Sessions of the study. */
  readonly inStudy: ReadonlySet<string>;
  readonly sessions: readonly { readonly session: string; readonly familiarisation: boolean }[];
}

/** What became of every effort of a test: made, judged, overruled, counted, used. */
export async function flowOf(lab: OpenLab, asked: Asked): Promise<FlowFacts> {
  const points = (
    await lab.store.results.history({ of: 'everyone', metric: asked.metric, protocol: asked.test })
  ).filter(({ person }) => asked.belongs(person));
  const sessions = (await allSessions(lab, asked.test)).filter(({ person }) => asked.belongs(person.id));
  const maximal = points.filter(({ effort }) => effort === 'maximal');
  const total = sessions.reduce((sum, { trials }) => sum + trials.maximal, 0);
  const counting = maximal.filter(({ standing }) => standing === 'counts');
  const first = new Set(asked.sessions.flatMap((one) => (one.familiarisation ? [one.session] : [])));
  const familiarisation = counting.filter(({ session }) => first.has(session));
  const used = counting.filter(({ session, metric }) => asked.inStudy.has(session) && metric && 'value' in metric);
  const verdict = (wanted: MetricPoint['verdict']) => maximal.filter((one) => one.verdict === wanted).length;
  return {
    people: new Set(sessions.map(({ person }) => person.id)).size,
    sessions: sessions.length,
    efforts: sessions.reduce((sum, { trials }) => sum + trials.total, 0),
    maximal: total,
    verdicts: {
      counts: verdict('counts'),
      lookAgain: verdict('look-again'),
      repeat: verdict('repeat'),
      notAnalysed: total - maximal.length,
    },
    checks: await byCheck(
      lab,
      maximal.filter((one) => one.verdict !== 'counts'),
    ),
    overruled: await byPerson(
      lab,
      maximal.flatMap(({ effective: { overruled } }) => overruled ?? []),
    ),
    excluded: await byPerson(
      lab,
      maximal.flatMap(({ effective: { excluded } }) => excluded ?? []),
    ),
    onsetByHand: await byPerson(
      lab,
      maximal.flatMap(({ effective: { onsetByHand } }) => onsetByHand ?? []),
    ),
    counting: counting.length,
    familiarisation: familiarisation.length,
    older: counting.length - familiarisation.length - used.length,
    used: used.length,
    usedSessions: new Set(used.map(({ session }) => session)).size,
  };
}

async function allSessions({ store }: OpenLab, protocol: string): Promise<SessionSummary[]> {
  const found: SessionSummary[] = [];
  let after: string | undefined;
  do {
    const page = await store.sessions.list({ protocol, limit: 500, ...(after === undefined ? {} : { after }) });
    found.push(...page.items);
    after = page.next;
  } while (after !== undefined);
  return found;
}

/** How often each check rejected or doubted, most first. One result after the other: a document holds its whole evidence. */
async function byCheck({ store }: OpenLab, points: readonly MetricPoint[]): Promise<FlowFacts['checks']> {
  const found = new Map<string, { failed: number; warned: number }>();
  for (const { trial } of points) {
    const document = (await store.results.current(trial))?.document;
    for (const [id, { status }] of Object.entries(document?.checks ?? {})) {
      if (status !== 'fail' && status !== 'warn') continue;
      const counted = found.get(id) ?? { failed: 0, warned: 0 };
      if (status === 'fail') counted.failed += 1;
      else counted.warned += 1;
      found.set(id, counted);
    }
  }
  return [...found]
    .map(([id, counted]) => ({ id, ...counted }))
    .sort((a, b) => b.failed - a.failed || b.warned - a.warned || (a.id < b.id ? -1 : 1));
}

/** Decisions by the name of who made them, most first. */
async function byPerson(
  lab: OpenLab,
  decisions: readonly { readonly by: string }[],
): Promise<{ by: string; n: number }[]> {
  const counts = new Map<string, number>();
  for (const { by } of decisions) counts.set(by, (counts.get(by) ?? 0) + 1);
  const named = await Promise.all([...counts].map(async ([by, n]) => ({ by: await lab.nameOf(by), n })));
  return named.sort((a, b) => b.n - a.n || (a.by < b.by ? -1 : 1));
}
