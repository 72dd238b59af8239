import type { DayEntry } from '@sthene/contract';
import type { SetupField } from '@sthene/core';
import { whenText } from '../../number/when.ts';
import { liveWords as words } from '../../words/live.ts';
import './setup-card.css';

interface SetupCardProps {
  readonly entry: DayEntry;
  /** As the day's protocol has them. */
  readonly fields: readonly SetupField[];
  readonly onSame: () => void;
  readonly onChange: () => void;
}

type Values = DayEntry['setup'];

/** How the athlete is set up: today's values, else the last ones, taken over with one touch. */
export function SetupCard({ entry, fields, onSame, onChange }: SetupCardProps) {
  const { setup: say } = words;
  const { setup, lastSetup } = entry;
  const today = Object.keys(setup).length > 0;
  const values = today ? setup : lastSetup?.values;
  const same = today && lastSetup !== undefined && sameValues(setup, lastSetup.values);
  return (
    <section className="setup-card" data-today={today}>
      <h2>
        {today
          ? same
            ? say.asLast
            : say.today
          : lastSetup === undefined
            ? say.none
            : say.last(whenText(lastSetup.at, false))}
      </h2>
      {values !== undefined && (
        <dl>
          {rows(fields, values).map(([id, title, value]) => (
            <div key={id} data-changed={today && lastSetup !== undefined && lastSetup.values[id] !== values[id]}>
              <dt>{title}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      )}
      <SetupMissing entry={entry} fields={fields} />
      <div className="setup-acts">
        {lastSetup !== undefined && !same && (
          <button type="button" className="button big" onClick={onSame}>
            {say.same}
          </button>
        )}
        <button type="button" className="button big" onClick={onChange}>
          {values === undefined ? say.enter : say.change}
        </button>
      </div>
    </section>
  );
}

/** What the protocol needs and nobody entered yet, in one line; nothing where all of it stands. */
export function SetupMissing({ entry, fields }: Pick<SetupCardProps, 'entry' | 'fields'>) {
  const missing = entry.setupMissing ?? [];
  if (missing.length === 0) return null;
  return <p className="line-warn">{words.setup.missing(missing.map((id) => shortTitle(fields, id)).join(', '))}</p>;
}

const shortTitle = (fields: readonly SetupField[], id: string): string =>
  words.setup.short[id as keyof typeof words.setup.short] ?? fields.find((one) => one.id === id)?.title ?? id;

/** What is set before every pull comes first; the rest of the fields stands in the dialog. */
function rows(fields: readonly SetupField[], values: Values): [string, string, string][] {
  return fields
    .filter(({ id, kind, required }) => values[id] !== undefined && (required || kind !== 'text'))
    .map(({ id, unit }) => {
      const value = values[id];
      const text = value === true ? words.setup.yes : value === false ? words.setup.no : String(value);
      return [id, shortTitle(fields, id), unit ? `${text}\u00a0${unit === 'deg' ? '\u00b0' : unit}` : text];
    });
}

const sameValues = (one: Values, other: Values): boolean =>
  Object.keys({ ...one, ...other }).every((id) => one[id] === other[id]);
