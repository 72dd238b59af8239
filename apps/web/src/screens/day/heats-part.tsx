import type { Day, LabId } from '@sthene/contract';
import { useId } from 'react';
import { useChangeDay } from '../../data/days.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';

/** Largest heat that is offered; a day may have another size by the interface. */
const largest = 12;

/** Divides a day into heats, or takes the division away; also while the day runs. */
export function HeatsPart({ lab, day }: { lab: LabId; day: Day }) {
  const t = dayWords.heats;
  const change = useChangeDay(lab, day.id);
  const by = useSigned();
  const say = useSay();
  const id = useId();
  // What was just chosen stands at once; the station's answer replaces it.
  const asked = change.isPending ? change.variables.heatSize : undefined;
  const size = asked === undefined ? day.heatSize : (asked ?? undefined);
  const sizes = [...new Set([...Array.from({ length: largest - 1 }, (_, i) => i + 2), ...(size ? [size] : [])])];
  const people = new Set(day.entries.map(({ person }) => person.id)).size;
  const choose = (next: number | null) => {
    if (by) change.mutate({ heatSize: next, by }, { onSuccess: () => say(dayWords.saved) });
    else say(dayWords.sign.needed);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{t.title}</label>
      <select
        id={id}
        value={size ?? ''}
        aria-describedby={`${id}help`}
        onChange={(event) => choose(event.target.value === '' ? null : Number(event.target.value))}
      >
        <option value="">{t.none}</option>
        {sizes
          .sort((a, b) => a - b)
          .map((one) => (
            <option key={one} value={one}>
              {t.of(one, Math.ceil(people / one))}
            </option>
          ))}
      </select>
      <p id={`${id}help`} className="small soft">
        {t.help}
      </p>
      {change.isError && <ProblemCard error={change.error} />}
    </div>
  );
}
