import type { Day, LabId } from '@sthene/contract';
import { useId } from 'react';
import { useChangeDay } from '../../data/days.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';

interface DayChoiceProps<K extends 'battery' | 'heatSize'> {
  readonly lab: LabId;
  readonly day: Day;
  /** What of the day is chosen; without it the day does without. */
  readonly of: K;
  readonly title: string;
  readonly none: string;
  readonly choices: readonly { readonly value: NonNullable<Day[K]>; readonly text: string }[];
  /** A sentence on what is chosen; none for what needs none. */
  readonly help: (chosen: Day[K]) => string | undefined;
}

/** One thing of a day that may be chosen, also while the day runs. */
export function DayChoice<K extends 'battery' | 'heatSize'>(props: DayChoiceProps<K>) {
  const { lab, day, of, title, none, choices } = props;
  const change = useChangeDay(lab, day.id);
  const by = useSigned();
  const say = useSay();
  const id = useId();
  // What was just chosen stands at once; the station's answer replaces it.
  const asked = change.isPending ? change.variables[of] : undefined;
  const chosen = (asked === undefined ? day[of] : (asked ?? undefined)) as Day[K];
  const help = props.help(chosen);
  const choose = (text: string) => {
    const value = choices.find((one) => String(one.value) === text)?.value ?? null;
    if (by) change.mutate({ [of]: value, by }, { onSuccess: () => say(dayWords.saved) });
    else say(dayWords.sign.needed);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{title}</label>
      <select
        id={id}
        value={chosen === undefined ? '' : String(chosen)}
        aria-describedby={help === undefined ? undefined : `${id}help`}
        onChange={(event) => choose(event.target.value)}
      >
        <option value="">{none}</option>
        {choices.map(({ value, text }) => (
          <option key={value} value={value}>
            {text}
          </option>
        ))}
      </select>
      {help !== undefined && (
        <p id={`${id}help`} className="small soft">
          {help}
        </p>
      )}
      {change.isError && <ProblemCard error={change.error} />}
    </div>
  );
}
