import type { ColumnRoleBody } from '@sthene/contract';
import { metricFacts, units } from '@sthene/core';
import { soleRoles, unitsFor } from '@sthene/formats/results-table';
import { unitText } from '../../number/format.ts';
import { receivedWords } from '../../words/received.ts';

interface RowProps {
  readonly number: number;
  readonly heading: string;
  readonly examples: readonly string[];
  readonly role: ColumnRoleBody;
  onChange(role: ColumnRoleBody): void;
}

const long = ['metric', 'value', 'unit'];
const who = ['code', 'name', 'given-name', 'family-name', 'birth-date', 'sex'];

/** One column: its heading, what stands there first, and a choice of what it is. */
export function ColumnRow({ number, heading, examples, role, onChange }: RowProps) {
  const t = receivedWords.screen;
  const name = heading === '' ? `${t.columns.heading} ${number}, ${t.columns.none}` : heading;
  const choose = (value: string) => {
    const metric = /^values:(.+)$/.exec(value)?.[1];
    if (metric === undefined) return onChange({ as: value as 'ignore' });
    const unit =
      role.as === 'values' && unitsFor(metric, units).includes(role.unit) ? role.unit : unitsFor(metric, units)[0];
    return onChange({ as: 'values', metric, unit: unit ?? '1' });
  };
  const sole = (names: readonly string[]) =>
    names.map((as) => (
      <option key={as} value={as}>
        {t.roles[as]}
      </option>
    ));
  return (
    <li className="results-column" data-ignored={role.as === 'ignore'}>
      <div className="results-heading">
        <b>{heading === '' ? <span className="soft">{t.columns.none}</span> : heading}</b>
        <span className="small soft number">{examples.join(' \u00b7 ')}</span>
      </div>
      <select
        aria-label={`${name}: ${t.columns.is}`}
        value={role.as === 'values' ? `values:${role.metric}` : role.as}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="ignore">{t.roles.ignore}</option>
        <optgroup label={t.groups.who}>{sole(who)}</optgroup>
        <optgroup label={t.groups.when}>
          {sole(soleRoles.filter((one) => !who.includes(one) && !long.includes(one)))}
        </optgroup>
        <optgroup label={t.groups.long}>{sole(long)}</optgroup>
        <optgroup label={t.groups.values}>
          {metricFacts.all.map(({ id, title }) => (
            <option key={id} value={`values:${id}`}>
              {title}
            </option>
          ))}
        </optgroup>
      </select>
      {role.as === 'values' && <ValueFields name={name} role={role} onChange={onChange} />}
    </li>
  );
}

type Values = Extract<ColumnRoleBody, { as: 'values' }>;

/** Unit of a column of values, and which trial it is of. */
function ValueFields({ name, role, onChange }: { name: string; role: Values; onChange(role: Values): void }) {
  const t = receivedWords.screen;
  const { as, metric, unit } = role;
  const of = role.trial === undefined ? (role.of ?? '') : `trial ${role.trial}`;
  const choose = (value: string) => {
    const trial = /^trial (\d+)$/.exec(value)?.[1];
    if (value === '') onChange({ as, metric, unit });
    else if (trial !== undefined) onChange({ as, metric, unit, trial: Number(trial), of: 'trial' });
    else onChange({ as, metric, unit, of: value as 'mean' });
  };
  return (
    <>
      <select
        className="number"
        aria-label={`${name}: ${t.columns.unit}`}
        value={unit}
        onChange={(event) => onChange({ ...role, unit: event.target.value })}
      >
        {unitsFor(metric, units).map((code) => (
          <option key={code} value={code}>
            {unitText(code)}
          </option>
        ))}
      </select>
      <select aria-label={`${name}: ${t.columns.trial}`} value={of} onChange={(event) => choose(event.target.value)}>
        <option value="">{t.usual}</option>
        {[...new Set([1, 2, 3, 4, 5, 6, role.trial ?? 1])].map((n) => (
          <option key={n} value={`trial ${n}`}>
            {t.columns.trialOf(n)}
          </option>
        ))}
        {(['mean', 'best', 'unknown'] as const).map((one) => (
          <option key={one} value={one}>
            {t.ofs[one]}
          </option>
        ))}
      </select>
    </>
  );
}
