import type { AthleteNote, ReturnSeries, ReturnView } from '@sthene/contract';
import { meanOf, metricRegistry, protocolRegistry } from '@sthene/core';
import { combinedError, type ErrorOfTest, noiseOfTest, recovered, sessionsBefore } from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { adoptionFor, listAdoptions } from '../follow/adoptions.ts';
import { showPerson } from '../people.ts';
import { labHistory, repeatedValues } from './history.ts';
import { metricNamed } from './metrics.ts';
import { listNotes } from './notes.ts';
import type { SessionOfMetric } from './session-values.ts';
import { squadsOf, testsOf } from './tests-of-athlete.ts';

type Limb = 'left' | 'right';
const otherOf = (limb: Limb): Limb => (limb === 'left' ? 'right' : 'left');

interface Asked {
  readonly injury?: string | undefined;
  readonly limb?: Limb | undefined;
  readonly metric?: string | undefined;
}

/** A limb against its own value before an injury, in tests of that leg alone, then in its side of tests on both legs. */
export async function returnView(lab: OpenLab, id: string, asked: Asked): Promise<ReturnView> {
  const person = await showPerson(lab, id);
  if (person === undefined) throw problems.notFound('athlete');
  const injuries = (await listNotes(lab, id)).filter(({ kind }) => kind === 'injury').toReversed();
  const injury = injuries.find((one) => one.id === asked.injury) ?? injuries[0];
  if (injury === undefined) return { person, injuries, series: [] };
  const limb = injury.limb === 'left' || injury.limb === 'right' ? injury.limb : (asked.limb ?? 'left');
  const tests = (await testsOf(lab, id)).map((one) => one.id);
  const bases = [...new Set(tests.map((test) => test.replace(/-(left|right)$/, '')))];
  const single = await Promise.all(
    bases
      .filter((base) => tests.includes(`${base}-${limb}`))
      .map((base) => seriesOf(lab, id, injury, { ...singleLeg(base, asked.metric ?? 'peak_force'), limb })),
  );
  const sides = await Promise.all(
    tests
      .filter((test) => protocolRegistry.get(test)?.limbs === 'both')
      .map((test) => seriesOf(lab, id, injury, { ...bothLegs(test), limb })),
  );
  return { person, injuries, injury: injury.id, limb, series: [...single, ...sides].filter(hasSomething) };
}

const hasSomething = ({ sessions, before }: ReturnSeries) => sessions.length > 0 || before !== undefined;

/** Where to find the value of a limb. */
interface Place {
  readonly kind: ReturnSeries['kind'];
  readonly test: (limb: Limb) => string;
  readonly metric: (limb: Limb) => string;
}

const singleLeg = (base: string, metric: string): Place => ({
  kind: 'single-leg',
  test: (limb) => `${base}-${limb}`,
  metric: () => metric,
});

const bothLegs = (test: string): Place => ({ kind: 'side', test: () => test, metric: (limb) => `${limb}_peak_force` });

async function seriesOf(
  lab: OpenLab,
  person: string,
  injury: AthleteNote,
  { limb, ...place }: Place & { readonly limb: Limb },
): Promise<ReturnSeries> {
  const test = place.test(limb);
  const metric = metricNamed(place.metric(limb));
  const [own, other] = await Promise.all([
    valuesOf(lab, person, place, limb, injury),
    valuesOf(lab, person, place, otherOf(limb), injury),
  ]);
  const [before, after] = parted(own.sessions, injury.from);
  const [otherBefore] = parted(other.sessions, injury.from);
  const base = before.slice(-sessionsBefore);
  const share = (value: number, of: readonly Valued[], error: ErrorOfTest | undefined) => {
    if (error === undefined || own.scale !== 'log') return undefined;
    const found = recovered(
      value,
      of.map((one) => one.value),
      error,
    );
    return found.ok ? found.value : undefined;
  };
  const sessions = after.map(({ session, at, value }) => {
    const same = other.sessions.find((one) => one.at.slice(0, 10) === at.slice(0, 10));
    const back = share(value, before, own.error);
    const otherBack = same && share(same.value, otherBefore, other.error);
    return {
      ...{ id: session, at, value },
      ...(back === undefined ? {} : { recovered: back }),
      ...(otherBack === undefined ? {} : { other: otherBack }),
      ...(same === undefined || same.value <= 0 ? {} : { symmetry: (100 * value) / same.value }),
    };
  });
  const lacking =
    base.length === 0
      ? 'too-few-values'
      : own.error === undefined
        ? 'too-few-values'
        : own.scale === 'log'
          ? undefined
          : 'not-positive';
  return {
    test,
    metric: { id: metric.id, title: metric.title, unit: own.unit },
    kind: place.kind,
    ...(base.length === 0
      ? {}
      : {
          before: {
            value: Math.exp(meanOf(base.map(({ value }) => Math.log(value)))),
            sessions: base.map(({ session }) => session),
            last: (base.at(-1) as Valued).at,
          },
        }),
    ...(own.error === undefined ? {} : { error: { value: own.error.value, df: own.error.df } }),
    sessions,
    ...(lacking === undefined ? {} : { reason: lacking }),
  };
}

type Valued = SessionOfMetric & { readonly value: number };

/** The athlete's values of one limb, oldest first, and the error of that test. */
async function valuesOf(lab: OpenLab, person: string, place: Place, limb: Limb, injury: AthleteNote) {
  const [history, mirror] = await Promise.all(
    [limb, otherOf(limb)].map(async (one) => {
      const definition = metricRegistry.get(place.metric(one));
      if (definition === undefined) throw problems.notFound('metric');
      return labHistory(lab, place.test(one), definition, person);
    }),
  );
  if (history === undefined || mirror === undefined) throw new Error('there are two limbs');
  const sessions = history.everyone.filter(
    (one): one is Valued =>
      one.person === person && one.value !== undefined && one.value > 0 && one.unit === history.unit,
  );
  const adopted = adoptionFor(await listAdoptions(lab), history, await squadsOf(lab, person));
  const legs = await Promise.all(
    [history, mirror].map(async (one, leg) =>
      (await repeatedValues(lab, one)).map((value) => ({ ...value, leg: `${value.person} ${leg}` })),
    ),
  );
  // Sessions of somebody hurt are no repeat tests: their legs change.
  const injured = Date.parse(injury.from) / 86_400_000;
  const repeats = legs.flat().filter((one) => one.person !== person || one.day < injured);
  const noise = noiseOfTest(
    repeats.map(({ leg, ...value }) => ({ ...value, person: leg })),
    history.scale,
  );
  // The interval carries the degrees of freedom of the study, at least those a squad's error counts for.
  const squad = adopted?.error ?? (noise.ok ? noise.value.error : undefined);
  const error = combinedError(squad, undefined);
  return { sessions, unit: history.unit, scale: history.scale, error: error.ok ? error.value : undefined };
}

/** Before the day of the injury, and from it on. A first session before it is better than none, else familiarisation stays out. */
function parted(sessions: readonly Valued[], day: string): readonly [readonly Valued[], readonly Valued[]] {
  const before = sessions.filter(({ at }) => at.slice(0, 10) < day);
  const settled = before.filter(({ familiarisation }) => !familiarisation);
  return [settled.length > 0 ? settled : before, sessions.filter(({ at }) => at.slice(0, 10) >= day)];
}
