import type { Day, LabId } from '@sthene/contract';
import { useState } from 'react';
import type { useDayAct } from '../../data/days.ts';
import { usePeople } from '../../data/use-people.ts';
import { Icon } from '../../parts/icon.tsx';
import { Menu } from '../../parts/menu.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { importWords } from '../../words/importing.ts';
import { exactly, matching, newFrom, personName } from '../import/who-name.ts';
import { testTitle } from '../trial/test-title.ts';
import { withEvery } from './battery.ts';

interface WalkInProps {
  readonly lab: LabId;
  readonly day: Day;
  readonly act: ReturnType<typeof useDayAct>;
}

/** Adds someone in two taps: this button, then the name. A name that is not known becomes a new athlete. */
export function WalkIn({ lab, day, act }: WalkInProps) {
  const t = dayWords.walkIn;
  return (
    <Menu
      label={t.act}
      className="button"
      face={
        <>
          <Icon name="plus" size={16} /> {t.act}
        </>
      }
      align="end"
    >
      {(close) => <Names lab={lab} day={day} act={act} close={close} />}
    </Menu>
  );
}

function Names({ lab, day, act, close }: WalkInProps & { close: () => void }) {
  const t = dayWords.walkIn;
  const { people, whole, error, again } = usePeople(lab);
  const [typed, setTyped] = useState('');
  const [test, setTest] = useState(day.battery === undefined ? (day.tests[0]?.test ?? '') : '');
  const by = useSigned();
  const say = useSay();
  const there = withEvery(day.entries, test === '' ? day.tests.map((plan) => plan.test) : [test]);
  const free = people.filter(({ id }) => !there.has(id));
  const found = matching(free, typed);
  const fresh = whole && typed.trim() !== '' && exactly(people, typed) === undefined ? newFrom(typed) : undefined;
  const ofTest = test === '' ? {} : { test };
  const add = (name: string, person: Parameters<typeof act.mutate>[0] & { kind: 'add' }) => {
    close();
    if (by) act.mutate(person, { onSuccess: () => say(t.added(name)) });
    else say(dayWords.sign.needed);
  };
  return (
    <div className="walk-in">
      {day.tests.length > 1 && (
        <label className="field">
          <span className="label">{t.test}</span>
          <select value={test} onChange={(event) => setTest(event.target.value)}>
            {day.battery !== undefined && <option value="">{dayWords.battery.everyTest}</option>}
            {day.tests.map((plan) => (
              <option key={plan.test} value={plan.test}>
                {testTitle(plan.test)}
              </option>
            ))}
          </select>
        </label>
      )}
      <label className="field">
        <span className="label">{t.find}</span>
        <input type="search" value={typed} autoComplete="off" onChange={(event) => setTyped(event.target.value)} />
      </label>
      {error !== null ? (
        <ProblemCard error={error} onRetry={again} />
      ) : !whole && found.length === 0 ? (
        <p className="small soft" role="status">
          {importWords.athlete.looking}
        </p>
      ) : (
        free.length === 0 && typed === '' && <p className="small soft">{t.all}</p>
      )}
      <div className="menu-list walk-in-list">
        {found.map((person) => (
          <button
            key={person.id}
            type="button"
            aria-label={t.add(`${personName(person)} ${person.code}`)}
            onClick={() =>
              add(personName(person), { kind: 'add', person: { id: person.id }, ...ofTest, walkIn: true, by })
            }
          >
            {personName(person)} <span className="small soft">{person.code}</span>
          </button>
        ))}
        {fresh?.kind === 'new' && (
          <button
            type="button"
            onClick={() => {
              const { givenName, familyName } = fresh;
              add(typed.trim(), {
                kind: 'add',
                person: { create: { givenName, familyName } },
                ...ofTest,
                walkIn: true,
                by,
              });
            }}
          >
            <Icon name="plus" size={16} /> {t.addNew(typed.trim())}
          </button>
        )}
      </div>
    </div>
  );
}
