import type { Day, DayEntry, DayPlan } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { durationText } from '../../number/duration.ts';
import { whenText } from '../../number/when.ts';
import { dayWords } from '../../words/day.ts';
import { protocolWords } from '../../words/protocols.ts';
import { setupWords } from '../trial/setup-words.ts';
import { testTitle } from '../trial/test-title.ts';
import { followsOn } from './battery.ts';
import { cautionsOf } from './begin-end.tsx';
import { effortWords } from './efforts-part.tsx';
import { protocolOf } from './protocol-of.ts';

/** For paper, one page up to two dozen athletes: the running order with boxes to tick, how each test runs, and the cautions. Only printed. */
export function PrintSheet({ day }: { day: Day }) {
  const t = dayWords.print;
  const entries = [...day.entries].sort((a, b) => a.position - b.position);
  return (
    <div className="day-sheet" aria-hidden="true">
      <p className="sheet-title">
        <b>{day.title || dayWords.days.untitled}</b>, {whenText(`${day.date}T00:00:00`, false)}
      </p>
      {day.battery !== undefined && (
        <p>
          {dayWords.battery.title}: {day.tests.map(({ test }) => testTitle(test)).join(', ')}.{' '}
          {dayWords.battery.orders[day.battery]}. {dayWords.battery.sheet}
        </p>
      )}
      <table>
        <thead>
          <tr>
            <th />
            <th>{t.name}</th>
            {day.tests.length > 1 && <th>{dayWords.days.head.tests}</th>}
            <th>{t.gates}</th>
            <th>{t.setup}</th>
            <th>{t.efforts}</th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry, i) => (
            <tr key={entry.id} data-follows={followsOn(entries, i, day.battery)}>
              <td className="number">{i + 1}</td>
              <td>
                {!followsOn(entries, i, day.battery) && (
                  <>
                    {entry.person.name} <span className="soft">{entry.person.code}</span>
                  </>
                )}
              </td>
              {day.tests.length > 1 && <td>{testTitle(entry.test)}</td>}
              <td>{gatesText(entry)}</td>
              <td>{shortSetup(entry)}</td>
              <td className="sheet-boxes">
                {[...entry.efforts.map(() => '\u2612'), ...entry.remaining.map(() => '\u2610')].join(' ')}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <div className="sheet-below">
        {day.tests.map((plan) => (
          <Protocol key={plan.test} day={day} plan={plan} />
        ))}
        <section className="sheet-cautions">
          <b>{dayWords.cautions}</b>
          <ul className="dots">
            {cautionsOf(day).map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      </div>
    </div>
  );
}

function Protocol({ day, plan }: { day: Day; plan: DayPlan }) {
  const t = dayWords.print;
  const protocol = protocolOf(day, plan.test);
  const cue = protocol?.cue.words ?? protocolRegistry.get(plan.test)?.cue;
  return (
    <section>
      <b>{testTitle(plan.test)}</b>
      {protocol && <p>{protocolWords.choice.option(protocol.name, protocol.version)}</p>}
      {protocol && protocol.warmUp.steps.length > 0 && <p>{protocol.warmUp.steps.join('; ')}</p>}
      <p>
        {t.steps}: {plan.efforts.map(effortWords).join('; ')}.{' '}
        {t.rest(durationText(plan.rest.minimum), durationText(plan.rest.maximum))}
      </p>
      {cue !== undefined && (
        <p>
          {t.cue}: {cue}
        </p>
      )}
    </section>
  );
}

const gatesText = ({ gates, person }: DayEntry): string =>
  [
    ...(person.minor ? [dayWords.order.minor] : []),
    ...gates
      .filter(({ effect }) => effect !== 'notes')
      .map(({ effect, kind }) => `${dayWords.gates.effects[effect]}: ${dayWords.gates.kinds[kind].toLowerCase()}`),
  ].join(', ');

const onSheet = ['bar_height', 'bar_pin', 'knee_angle', 'hip_angle', 'grip', 'straps', 'bar_position'];

/** Bar, joint angles and grip only: what is set at the rig. */
function shortSetup({ setup, lastSetup, test }: DayEntry): string {
  const values = Object.keys(setup).length > 0 ? setup : (lastSetup?.values ?? {});
  return setupWords(test, Object.fromEntries(Object.entries(values).filter(([id]) => onSheet.includes(id))))
    .map((one) => one.replace(' above the plates', '').replace(' (180 is straight)', ''))
    .join(', ');
}
