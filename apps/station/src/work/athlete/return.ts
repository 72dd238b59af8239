import type { AthleteNote, ReturnSeries, ReturnView } from '@sthene/contract';
import { meanOf, protocolRegistry } from '@sthene/core';
import {
  combinedError,
  type ErrorOfTest,
  type Estimate,
  noiseOfTest,
  recovered,
  type Scale,
  sessionsBefore,
} from '@sthene/core/stats';
import type { OpenLab } from '../../labs/open-lab.ts';
import { problems } from '../../server/problem-error.ts';
import { adoptionFor, listAdoptions } from '../follow/adoptions.ts';
import { showPerson } from '../people.ts';
import { type LabHistory, labHistory, repeatedValues } from './history.ts';
import { metricNamed, metricOfLeg } from './metrics.ts';
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
      .map((base) =>
        seriesOf(lab, id, injury, { ...singleLeg(base, metricNamed(asked.metric, `${base}-${limb}`).id), limb }),
      ),
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

const bothLegs = (test: string): Place => ({
  kind: 'side',
  test: () => test,
  metric: (limb) => metricOfLeg(test, limb),
});

async function seriesOf(
  lab: OpenLab,
  person: string,
  injury: AthleteNote,
  { limb, ...place }: Place & { readonly limb: Limb },
): Promise<ReturnSeries> {
  const metric = metricNamed(place.metric(limb));
  const legs = await legsOf(lab, person, place, injury);
  const [own, other] = [legs[limb], legs[otherOf(limb)]];
  const [before, after] = parted(own.sessions, injury.from);
  const [otherBefore] = parted(other.sessions, injury.from);
  const base = before.slice(-sessionsBefore);
  const sessions = after.map(({ session, at, value }) => {
    const same = other.sessions.find((one) => one.at.slice(0, 10) === at.slice(0, 10));
    const back = shareBack(own, value, before);
    const otherBack = same && shareBack(other, same.value, otherBefore);
    return {
      ...{ id: session, at, value },
      ...(back === undefined ? {} : { recovered: back }),
      ...(otherBack === undefined ? {} : { other: otherBack }),
      ...(same === undefined ? {} : { symmetry: (100 * value) / same.value }),
    };
  });
  const lacking = base.length === 0 || own.error === undefined ? 'too-few-values' : 'not-positive';
  return {
    test: place.test(limb),
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
    ...(base.length > 0 && own.error !== undefined && own.scale === 'log' ? {} : { reason: lacking }),
  };
}

type Valued = SessionOfMetric & { readonly value: number };

/** The athlete's values of one limb, oldest first, and the error of that test. */
interface Leg {
  readonly sessions: readonly Valued[];
  readonly unit: string;
  readonly scale: Scale;
  readonly error: ErrorOfTest | undefined;
}

/** A value as a share of what the leg gave before; forces only. */
function shareBack({ error, scale }: Leg, value: number, before: readonly Valued[]): Estimate | undefined {
  if (error === undefined || scale !== 'log') return undefined;
  const found = recovered(
    value,
    before.map((one) => one.value),
    error,
  );
  return found.ok ? found.value : undefined;
}

/** Both legs; the error comes from everybody's sessions of both. */
async function legsOf(
  lab: OpenLab,
  person: string,
  place: Place,
  injury: AthleteNote,
): Promise<Readonly<Record<Limb, Leg>>> {
  const of = (limb: Limb) => labHistory(lab, place.test(limb), metricNamed(place.metric(limb)), person);
  const [left, right] = await Promise.all([of('left'), of('right')]);
  const [adoptions, squads] = await Promise.all([listAdoptions(lab), squadsOf(lab, person)]);
  const repeats = await Promise.all(
    [left, right].map(async (history, leg) =>
      (await repeatedValues(lab, history))
        // Sessions of somebody hurt are no repeat tests: their legs change.
        .filter((one) => one.person !== person || one.day < Date.parse(injury.from) / 86_400_000)
        .map((one) => ({ ...one, person: `${one.person} ${leg}` })),
    ),
  );
  const noise = noiseOfTest(repeats.flat(), left.scale);
  const legOf = (history: LabHistory): Leg => {
    const { unit, scale, everyone } = history;
    const squad = adoptionFor(adoptions, history, squads)?.error ?? (noise.ok ? noise.value.error : undefined);
    // The interval carries the degrees of freedom of the study, at least those a squad's error counts for.
    const error = combinedError(squad, undefined);
    const sessions = everyone.filter(
      (one): one is Valued => one.person === person && one.value !== undefined && one.value > 0 && one.unit === unit,
    );
    return { sessions, unit, scale, error: error.ok ? error.value : undefined };
  };
  return { left: legOf(left), right: legOf(right) };
}

/** Before the day of the injury, and from it on. A first session before it is better than none, else familiarisation stays out. */
function parted(sessions: readonly Valued[], day: string): readonly [readonly Valued[], readonly Valued[]] {
  const before = sessions.filter(({ at }) => at.slice(0, 10) < day);
  const settled = before.filter(({ familiarisation }) => !familiarisation);
  return [settled.length > 0 ? settled : before, sessions.filter(({ at }) => at.slice(0, 10) >= day)];
}
