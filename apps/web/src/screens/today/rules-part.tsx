import { type FollowRules, followRoutes, type LabId, type Squad } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { useMay } from '../../data/access.ts';
import { followRulesQuery, useChangeRules } from '../../data/follow.ts';
import { months } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { followWords } from '../../words/follow.ts';
import { Choice } from '../athletes/choice.tsx';

/** When a season begins, who is due, and the one value each squad is judged by. */
export function RulesPart({ lab, squads }: { lab: LabId; squads: readonly Squad[] }) {
  const t = followWords.today;
  const rules = useQuery(followRulesQuery(lab));
  const may = useMay()(followRoutes.changeFollowRules);
  return (
    <details className="today-rules">
      <summary>{t.rules}</summary>
      {rules.isError && <ProblemCard error={rules.error} />}
      {!may && <p className="soft">{t.noRules}</p>}
      {rules.data && may && <RulesForm key={JSON.stringify(rules.data)} lab={lab} kept={rules.data} squads={squads} />}
    </details>
  );
}

interface FormProps {
  readonly lab: LabId;
  readonly kept: FollowRules;
  readonly squads: readonly Squad[];
}

function RulesForm({ lab, kept, squads }: FormProps) {
  const t = followWords.today.form;
  const change = useChangeRules(lab);
  const by = useSigned();
  const [rules, setRules] = useState(kept);
  const [month, day] = rules.seasonStart.split('-') as [string, string];
  const ids = { due: useId() };
  const season = (m: string, d: string) => setRules({ ...rules, seasonStart: `${m}-${d}` });
  const primary = (squad: string, metric: string) => {
    const { [squad]: _, ...others } = rules.primary;
    setRules({ ...rules, primary: metric === '' ? others : { ...others, [squad]: metric } });
  };
  const two = (n: number) => String(n).padStart(2, '0');
  const metrics = metricFacts.all.map(({ id, title }) => (
    <option key={id} value={id}>
      {title}
    </option>
  ));
  return (
    <form
      className="today-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (by !== '') change.mutate({ ...rules, by });
      }}
    >
      <fieldset>
        <legend>{t.season}</legend>
        <Choice label={t.day} value={day} onChange={(value) => season(month, value)}>
          {Array.from({ length: 31 }, (_, i) => (
            <option key={two(i + 1)} value={two(i + 1)}>
              {i + 1}
            </option>
          ))}
        </Choice>
        <Choice label={t.month} value={month} onChange={(value) => season(value, day)}>
          {months.map((name, i) => (
            <option key={name} value={two(i + 1)}>
              {name}
            </option>
          ))}
        </Choice>
      </fieldset>
      <div className="field">
        <label htmlFor={ids.due}>{t.due}</label>
        <input
          id={ids.due}
          type="number"
          min={1}
          max={104}
          required
          value={rules.dueWeeks}
          onChange={(event) => setRules({ ...rules, dueWeeks: Number(event.target.value) })}
        />
      </div>
      <Choice label={t.primary} value={rules.primary[''] ?? 'peak_force'} onChange={(value) => primary('', value)}>
        {metrics}
      </Choice>
      {squads.map(({ id, name }) => (
        <Choice
          key={id}
          label={t.primaryOf(name)}
          value={rules.primary[id] ?? ''}
          onChange={(value) => primary(id, value)}
        >
          <option value="">{t.same}</option>
          {metrics}
        </Choice>
      ))}
      <p className="small soft">{t.help}</p>
      <SignFirst />
      {change.isError && <ProblemCard error={change.error} />}
      <div className="acts">
        <button type="submit" className="button" disabled={change.isPending || by === ''}>
          {t.save}
        </button>
        <span className="small soft" role="status">
          {change.isSuccess ? t.saved : ''}
        </span>
      </div>
    </form>
  );
}
