import type { Ratio, RatioCaution, RatioLack, RatioView } from '@sthene/contract';
import type { OpenLab } from '../../labs/open-lab.ts';
import type { RatioDefinition } from './definitions.ts';
import { dayAt, type Match, matches, nearestApart } from './match.ts';
import { ratioOf } from './ratio.ts';
import { type SideHistory, sideHistory, type ValuedSession } from './side-history.ts';

/** Whose ratio, until when, and how many days its tests may lie apart. */
export interface Asked {
  readonly person: string;
  readonly squads: readonly string[];
  readonly until: string | undefined;
  readonly apart: number;
}

/** One ratio of an athlete: the newest, every earlier one, and why there is none. */
export async function ratioView(lab: OpenLab, definition: RatioDefinition, asked: Asked): Promise<RatioView> {
  const sides = await Promise.all(definition.sides.map((side) => chosenSide(lab, side, asked)));
  const all = matches(
    sides.map(({ valued }) => valued),
    asked.apart,
  );
  const alike = all.filter((one) => !definition.oneMethod || methodsOf(one).size <= 1);
  const ratios = alike.flatMap((match) => {
    const ratio = ratioOf(definition, sides, match);
    return ratio === undefined ? [] : [{ ...ratio, match }];
  });
  const newest = ratios.at(-1);
  const lack = await lackOf(lab, sides, asked, { found: newest !== undefined, otherMethod: all.length > alike.length });
  const { id, title, unit, formula, source, limits } = definition;
  return {
    ...{ id, title, unit, formula, source, limits: [...limits] },
    ...(newest === undefined ? {} : { current: await withCautions(lab, newest) }),
    ...(lack === undefined ? {} : { lack }),
    newer: newest === undefined ? [] : sides.flatMap((side) => newerThan(newest.at, side, all, alike)),
    history: ratios.map(({ at, days, value, interval, word, components }) => ({
      ...{ at, days, value, word },
      ...(interval === undefined ? {} : { interval }),
      sessions: components.map(({ session }) => session),
    })),
  };
}

/** Of several tests that would do, the first the athlete has a value of. */
async function chosenSide(
  lab: OpenLab,
  { tests, metric }: RatioDefinition['sides'][number],
  asked: Asked,
): Promise<SideHistory> {
  let first: SideHistory | undefined;
  for (const test of tests) {
    const side = await sideHistory(lab, asked, test, metric);
    if (side.valued.length > 0) return side;
    first ??= side;
  }
  return first as SideHistory;
}

/**
 * The newest session of a test, where it is of a later day than a ratio, and why it has none.
 *
 * @param all pairs of sessions near enough
 * @param alike those made by one method, where that is asked for
 */
function newerThan(
  at: string,
  { test, valued }: SideHistory,
  all: readonly Match<ValuedSession>[],
  alike: readonly Match<ValuedSession>[],
): RatioView['newer'] {
  const newest = valued.at(-1);
  if (newest === undefined || dayAt(newest.at) <= dayAt(at)) return [];
  const among = (found: readonly Match<ValuedSession>[]) => found.some(({ sessions }) => sessions.includes(newest));
  const reason = !among(all) ? 'too-far-apart' : among(alike) ? 'no-value' : 'other-method';
  return [{ test, session: newest.session, at: newest.at, reason }];
}

const methodsOf = ({ sessions }: Match<ValuedSession>): Set<string> =>
  new Set(sessions.flatMap(({ methods }) => methods));

/** Why there is no ratio: the first of these that is so. */
async function lackOf(
  lab: OpenLab,
  sides: readonly SideHistory[],
  { person, apart }: Asked,
  { found, otherMethod }: { readonly found: boolean; readonly otherMethod: boolean },
): Promise<RatioLack | undefined> {
  if (found) return undefined;
  const received = async (of: readonly SideHistory[]) => {
    const counts = await Promise.all(
      of.map(async ({ test, metric }) => (await lab.store.received.history({ person, metric, protocol: test })).length),
    );
    return counts.reduce((sum, n) => sum + n, 0);
  };
  const missing = sides.filter(({ sessions }) => sessions.length === 0);
  if (missing.length > 0)
    return { reason: 'test-missing', tests: missing.map(({ test }) => test), received: await received(missing) };
  const empty = sides.filter(({ valued }) => valued.length === 0);
  if (empty.length > 0)
    return { reason: 'no-value', tests: empty.map(({ test }) => test), received: await received(empty) };
  const tests = sides.map(({ test }) => test);
  if (otherMethod) return { reason: 'other-method', tests, received: 0 };
  const days = nearestApart(sides.map(({ valued }) => valued));
  // Within the days and of one method, and yet no ratio: a value that is not above zero.
  if (days !== undefined && days <= apart) return { reason: 'no-value', tests, received: 0 };
  return { reason: 'too-far-apart', tests, ...(days === undefined ? {} : { days }), received: 0 };
}

/** What has to be kept in mind beside the newest ratio. */
async function withCautions(
  lab: OpenLab,
  { match, ...ratio }: Omit<Ratio, 'cautions'> & { readonly match: Match<ValuedSession> },
): Promise<Ratio> {
  const { components } = ratio;
  const sessions = await lab.store.sessions.getMany(components.map(({ session }) => session));
  const arms = new Set(sessions.flatMap(({ setup }) => (typeof setup.arms === 'string' ? [setup.arms] : [])));
  const dips = await Promise.all(
    match.sessions.map((one, i) => components[i]?.test === 'squat-jump' && hadDip(lab, one.results)),
  );
  const so: Readonly<Record<RatioCaution, boolean>> = {
    'first-session': components.some(({ familiarisation }) => familiarisation),
    'days-apart': ratio.days > 0,
    'arms-differ': arms.size > 1,
    dip: dips.some(Boolean),
    'squat-jump-used': components.some(({ role, test }) => role === 'jump' && test === 'squat-jump'),
    'error-of-trials': components.some(({ errorFrom }) => errorFrom === 'trials'),
  };
  return { ...ratio, cautions: (Object.keys(so) as RatioCaution[]).filter((one) => so[one]) };
}

/** Whether a squat jump that counts sank before its push: by the checks it was let pass with a warning, or a person took it back in. */
async function hadDip(lab: OpenLab, results: readonly string[]): Promise<boolean> {
  const documents = await Promise.all(results.map((id) => lab.store.results.get(id)));
  return documents.some((one) =>
    ['squat_jump_dip', 'squat_jump_dip_depth'].some((id) => {
      const status = one?.document.checks[id]?.status;
      return status === 'warn' || status === 'fail';
    }),
  );
}
