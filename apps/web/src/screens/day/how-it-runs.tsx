import { type Day, type LabId, liveRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { useMay } from '../../data/access.ts';
import { useChangeDay } from '../../data/days.ts';
import { rigsQuery, sourcesQuery, useKeepSource, useRigAct } from '../../data/rigs.ts';
import { durationText } from '../../number/duration.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { testTitle } from '../trial/test-title.ts';
import { BatteryPart } from './battery-part.tsx';
import { effortWords } from './efforts-part.tsx';
import { HeatsPart } from './heats-part.tsx';
import { useRigLetter } from './rig-names.ts';

const speeds = [1, 5, 10] as const;

/** Efforts and rests of each test, who gives the cue, and how fast virtual plates play. What may not change while the day runs is only said then. */
export function HowItRuns({ lab, day }: { lab: LabId; day: Day }) {
  const t = dayWords.how;
  const change = useChangeDay(lab, day.id);
  const by = useSigned();
  const say = useSay();
  const id = useId();
  const may = useMay();
  const letter = useRigLetter(lab);
  const fixed = day.status === 'open' || !may(liveRoutes.changeDay);
  // What was just chosen stands at once; the station's answer replaces it.
  const [asked, setAsked] = useState<boolean>();
  const handsFree = asked ?? day.handsFree;
  const choose = (next: boolean) => {
    if (!by) return say(dayWords.sign.needed);
    setAsked(next);
    const over = { onSuccess: () => say(dayWords.saved), onSettled: () => setAsked(undefined) };
    change.mutate({ handsFree: next, by }, over);
  };
  return (
    <section className="panel" aria-labelledby={`${id}how`}>
      <h2 id={`${id}how`}>{t.title}</h2>
      {day.tests.map((plan) => (
        <p key={plan.test} className="small">
          <b>{testTitle(plan.test)}</b>: {plan.efforts.map((one) => effortWords(one).toLowerCase()).join(', ')}.{' '}
          {t.rest(durationText(plan.rest.minimum), durationText(plan.rest.maximum))}
          {plan.rigs && ` ${t.onlyOn(plan.rigs.map(letter))}`}
        </p>
      ))}
      {fixed ? (
        <p className="small">{day.handsFree ? t.handsFree : t.guided}</p>
      ) : (
        <fieldset>
          <legend>{t.cue}</legend>
          {[false, true].map((one) => (
            <label key={String(one)} className="check-line">
              <input type="radio" name={`${id}cue`} checked={handsFree === one} onChange={() => choose(one)} />
              {one ? t.handsFree : t.guided}
            </label>
          ))}
        </fieldset>
      )}
      {change.isError && <ProblemCard error={change.error} />}
      {may(liveRoutes.changeDay) && day.tests.length > 1 && <BatteryPart lab={lab} day={day} />}
      {may(liveRoutes.changeDay) && <HeatsPart lab={lab} day={day} />}
      {may(liveRoutes.sources) && <Speed lab={lab} day={day} />}
    </section>
  );
}

/** How fast virtual plates play; nothing where the rigs are real. */
function Speed({ lab, day }: { lab: LabId; day: Day }) {
  const t = dayWords.how;
  const rigs = useQuery(rigsQuery(lab)).data ?? [];
  const sources = useQuery(sourcesQuery(lab)).data ?? [];
  const changes = useMay()(liveRoutes.changeSource);
  const keep = useKeepSource(lab);
  const act = useRigAct(lab);
  const [asked, setAsked] = useState<number>();
  const by = useSigned();
  const say = useSay();
  const id = useId();
  const mine = rigs.filter((rig) => day.rigs.includes(rig.id));
  const parts = new Set(mine.flatMap((rig) => rig.sources.map((source) => source.id)));
  const virtual = sources.filter((one) => parts.has(one.id) && one.description.transport.kind === 'virtual');
  const [first] = virtual;
  if (first?.description.transport.kind !== 'virtual') return null;
  const speed = asked ?? first.description.transport.speed ?? 1;
  if (day.status === 'open' || !changes) return <p className="band small">{t.virtualAt(speed)}</p>;
  const set = async (next: number) => {
    if (!by) return say(dayWords.sign.needed);
    // A rig that runs keeps its sources as they are; the day opens it again when it begins.
    setAsked(next);
    for (const rig of mine)
      if (rig.state !== 'closed') await act.mutateAsync({ kind: 'close', id: rig.id, by }).catch(() => {});
    for (const { id: source, description } of virtual) {
      const { transport } = description;
      if (transport.kind === 'virtual')
        keep.mutate(
          { id: source, description: { ...description, transport: { ...transport, speed: next } }, by },
          { onSuccess: () => say(dayWords.saved), onError: () => setAsked(undefined) },
        );
    }
  };
  return (
    <fieldset>
      <legend>{t.speed}</legend>
      {[...new Set([...speeds, speed])]
        .sort((a, b) => a - b)
        .map((one) => (
          <label key={one} className="check-line">
            <input type="radio" name={`${id}speed`} checked={speed === one} onChange={() => void set(one)} />
            {t.speeds(one)}
          </label>
        ))}
      <p className="small soft">{t.virtual}</p>
      {keep.isError && <ProblemCard error={keep.error} />}
    </fieldset>
  );
}
