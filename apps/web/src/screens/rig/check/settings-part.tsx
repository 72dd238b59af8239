import type { LabId, RigCheckSettings } from '@sthene/contract';
import { defaultLimits } from '@sthene/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { rigCheckSettingsQuery, useKeepCheckSettings } from '../../../data/rig-checks.ts';
import { Answer } from '../../../parts/answer.tsx';
import { ProblemCard } from '../../../parts/problem-card.tsx';
import { useSigned } from '../../../parts/signed.tsx';
import { useSay } from '../../../parts/status.tsx';
import { dayWords } from '../../../words/day.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';

const t = rigCheckWords.settings;
const policies = Object.keys(t.overdues) as RigCheckSettings['overdue'][];

/** What the lab has decided: its own limits, how often, and what an overdue check does. */
export function SettingsPart({ lab }: { lab: LabId }) {
  const settings = useQuery(rigCheckSettingsQuery(lab));
  return <Answer of={settings}>{(kept) => <Filled lab={lab} settings={kept} />}</Answer>;
}

function Filled({ lab, settings }: { lab: LabId; settings: RigCheckSettings }) {
  const [draft, setDraft] = useState(settings);
  const keep = useKeepCheckSettings(lab);
  const by = useSigned();
  const say = useSay();
  const limit = (id: keyof RigCheckSettings['limits'], text: string) => {
    const { [id]: _, ...others } = draft.limits;
    const value = Number(text.replace(',', '.'));
    setDraft({ ...draft, limits: value > 0 ? { ...others, [id]: value } : others });
  };
  return (
    <details className="panel no-print">
      <summary>
        <h2>{t.title}</h2>
      </summary>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (!by) return say(dayWords.sign.needed);
          keep.mutate({ ...draft, by }, { onSuccess: () => say(t.kept) });
        }}
      >
        <div className="field-grid">
          <div className="field">
            <label htmlFor="check-interval">{t.interval}</label>
            <input
              id="check-interval"
              type="number"
              min="1"
              max="3660"
              value={draft.interval}
              onChange={(event) => setDraft({ ...draft, interval: Math.round(Number(event.target.value)) })}
            />
          </div>
          <div className="field">
            <label htmlFor="check-overdue">{t.overdue}</label>
            <select
              id="check-overdue"
              value={draft.overdue}
              onChange={(event) => setDraft({ ...draft, overdue: event.target.value as RigCheckSettings['overdue'] })}
            >
              {policies.map((one) => (
                <option key={one} value={one}>
                  {t.overdues[one]}
                </option>
              ))}
            </select>
          </div>
        </div>
        <fieldset>
          <legend>{t.limits}</legend>
          <p className="small soft">{t.limitsHelp}</p>
          <div className="field-grid">
            {defaultLimits.map(({ id, value, unit }) => (
              <div key={id} className="field">
                <label htmlFor={`limit-${id}`}>
                  {rigCheckWords.quantities[id]}, {unit}
                </label>
                <input
                  id={`limit-${id}`}
                  inputMode="decimal"
                  defaultValue={settings.limits[id] ?? ''}
                  placeholder={String(value)}
                  onChange={(event) => limit(id, event.target.value)}
                />
              </div>
            ))}
          </div>
        </fieldset>
        {keep.isError && <ProblemCard error={keep.error} />}
        <button type="submit" className="button" disabled={keep.isPending}>
          {t.keep}
        </button>
      </form>
    </details>
  );
}
