import { athleteChange, type LabId, usualDaysApart } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useId } from 'react';
import { squadsQuery } from '../../data/days.ts';
import { peopleQuery } from '../../data/imports.ts';
import { protocolsQuery } from '../../data/protocols.ts';
import { methodsOfLabQuery } from '../../data/reports.ts';
import { rigsQuery } from '../../data/rigs.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { athleteWords } from '../../words/athletes.ts';
import { batteryWords } from '../../words/battery.ts';
import { protocolWords } from '../../words/protocols.ts';
import { reportWords as t } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import { ApartChoice } from '../battery/apart-choice.tsx';
import { PushOffField } from '../battery/push-off-field.tsx';
import { MetricField } from './metric-field.tsx';
import { SessionField } from './session-field.tsx';
import type { ReportChoice, ReportField } from './use-report.ts';

const counts = [2, 3, 4, 5, 6, 8, 10];

/** Whose report, of what: only the fields that the kind asks for. */
export function SubjectFields({ lab, report }: { lab: LabId; report: ReportChoice }) {
  const { has, values, choose } = report;
  const value = (field: ReportField) => values[field] ?? '';
  const set = (field: ReportField) => (chosen: string) => choose(field, chosen);
  return (
    <>
      {has('person') && <PersonField lab={lab} value={value('person')} onChange={set('person')} />}
      {has('session') && <SessionField lab={lab} value={value('session')} onChange={set('session')} />}
      {has('squad') && <SquadField lab={lab} value={value('squad')} onChange={set('squad')} />}
      {has('protocol') && <ProtocolField lab={lab} value={value('protocol')} onChange={set('protocol')} />}
      {has('rig') && <RigField lab={lab} value={value('rig')} onChange={set('rig')} />}
      {has('method') && <MethodField lab={lab} value={value('method')} onChange={set('method')} />}
      {has('test') && (
        <Choice label={t.test} value={value('test')} onChange={set('test')}>
          <option value="">{t.mostSessions}</option>
          {protocolRegistry.all.map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </Choice>
      )}
      {has('metric') && <MetricField lab={lab} report={report} />}
      {has('against') && (
        <Choice label={t.against} value={value('against') || 'last'} onChange={set('against')}>
          {athleteChange.shape.reference.options.map((one) => (
            <option key={one} value={one}>
              {athleteWords.references[one]}
            </option>
          ))}
        </Choice>
      )}
      {has('on') && <BatteryFields value={value} set={set} />}
      {has('sessions') && (
        <Choice label={t.sessions} value={value('sessions') || '2'} onChange={set('sessions')}>
          {counts.map((n) => (
            <option key={n} value={n}>
              {n}
            </option>
          ))}
        </Choice>
      )}
    </>
  );
}

/** Last day, days between tests and push-off distance; what is usual where nothing is chosen. */
function BatteryFields({
  value,
  set,
}: {
  value: (field: ReportField) => string;
  set: (field: ReportField) => (chosen: string) => void;
}) {
  const on = useId();
  const apart = Number(value('apart') || usualDaysApart);
  return (
    <>
      <div className="field">
        <label htmlFor={on}>{batteryWords.on}</label>
        <input id={on} type="date" value={value('on')} onChange={(event) => set('on')(event.target.value)} />
      </div>
      <ApartChoice value={Number.isInteger(apart) ? apart : usualDaysApart} onChange={set('apart')} />
      <PushOffField given={value('pushOff')} help={batteryWords.profile.pushOffHelp} onChange={set('pushOff')} />
    </>
  );
}

interface FieldProps {
  readonly lab: LabId;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

function PersonField({ lab, value, onChange }: FieldProps) {
  const { data = [], isError, error, isSuccess, refetch } = useQuery(peopleQuery(lab));
  if (isError) return <ProblemCard error={error} onRetry={() => void refetch()} />;
  if (isSuccess && data.length === 0) return <p>{t.nobody}</p>;
  return (
    <Choice label={t.person} value={value} onChange={onChange}>
      <option value="" />
      {data.map(({ id, givenName, familyName, code }) => (
        <option key={id} value={id}>
          {`${familyName} ${givenName} (${code})`}
        </option>
      ))}
    </Choice>
  );
}

export function SquadField({ lab, value, onChange }: FieldProps) {
  const { data = [] } = useQuery(squadsQuery(lab));
  return (
    <Choice label={t.squad} value={value} onChange={onChange}>
      <option value="">{t.everybody}</option>
      {data.map(({ id, name, members }) => (
        <option key={id} value={id}>
          {athleteWords.squadOf(name, members)}
        </option>
      ))}
    </Choice>
  );
}

function RigField({ lab, value, onChange }: FieldProps) {
  const { data = [], isError, error, refetch } = useQuery(rigsQuery(lab));
  if (isError) return <ProblemCard error={error} onRetry={() => void refetch()} />;
  return (
    <Choice label={t.rig} value={value} onChange={onChange}>
      <option value="" />
      {data.map(({ id, name, letter }) => (
        <option key={id} value={id}>
          {`${letter}: ${name}`}
        </option>
      ))}
    </Choice>
  );
}

function ProtocolField({ lab, value, onChange }: FieldProps) {
  const { data = [], isError, error, refetch } = useQuery(protocolsQuery(lab));
  if (isError) return <ProblemCard error={error} onRetry={() => void refetch()} />;
  return (
    <Choice label={t.protocol} value={value} onChange={onChange}>
      <option value="" />
      {data.map(({ id, name, version }) => (
        <option key={id} value={id}>
          {protocolWords.choice.option(name, version)}
        </option>
      ))}
    </Choice>
  );
}

function MethodField({ lab, value, onChange }: FieldProps) {
  const { data = [] } = useQuery(methodsOfLabQuery(lab));
  const current = data.find((one) => one.current);
  return (
    <Choice label={t.method} value={value || (current?.id ?? '')} onChange={onChange}>
      {data.map(({ id, name, version }) => (
        <option key={id} value={id}>
          {protocolWords.choice.option(name, version)}
        </option>
      ))}
    </Choice>
  );
}
