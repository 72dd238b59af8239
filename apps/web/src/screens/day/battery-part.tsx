import type { BatteryOrder, Day, LabId } from '@sthene/contract';
import { useId } from 'react';
import { useChangeDay } from '../../data/days.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';

const choices = ['by-test', 'by-person'] as const;

/** How people go through the tests of a battery; may be changed while the day runs. */
export function BatteryPart({ lab, day }: { lab: LabId; day: Day }) {
  const t = dayWords.battery;
  const change = useChangeDay(lab, day.id);
  const by = useSigned();
  const say = useSay();
  const id = useId();
  // What was just chosen stands at once; the station's answer replaces it.
  const asked = change.isPending ? change.variables.battery : undefined;
  const battery = asked === undefined ? day.battery : (asked ?? undefined);
  const choose = (next: BatteryOrder | null) => {
    if (by) change.mutate({ battery: next, by }, { onSuccess: () => say(dayWords.saved) });
    else say(dayWords.sign.needed);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{t.title}</label>
      <select
        id={id}
        value={battery ?? ''}
        aria-describedby={`${id}help`}
        onChange={(event) => choose(event.target.value === '' ? null : (event.target.value as BatteryOrder))}
      >
        <option value="">{t.none}</option>
        {choices.map((one) => (
          <option key={one} value={one}>
            {t.orders[one]}
          </option>
        ))}
      </select>
      {battery !== undefined && (
        <p id={`${id}help`} className="small soft">
          {t.help[battery]} {t.once}
        </p>
      )}
      {change.isError && <ProblemCard error={change.error} />}
    </div>
  );
}
