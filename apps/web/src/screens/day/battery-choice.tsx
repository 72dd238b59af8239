import type { BatteryOrder, RigView } from '@sthene/contract';
import { useId } from 'react';
import { Icon } from '../../parts/icon.tsx';
import { dayWords } from '../../words/day.ts';
import { testTitle } from '../trial/test-title.ts';
import { inUsualOrder } from './battery.ts';
import { movedBy } from './order.ts';

interface BatteryChoiceProps {
  readonly tests: readonly string[];
  /** '': no battery. */
  readonly battery: BatteryOrder | '';
  readonly rigs: readonly RigView[];
  /** By test: the one rig it is done on; '': any. */
  readonly testRigs: Readonly<Record<string, string>>;
  onBattery(battery: BatteryOrder | ''): void;
  /** `own`: somebody chose this order by hand. */
  onOrder(tests: readonly string[], own: boolean): void;
  onRig(test: string, rig: string): void;
}

const choices = ['by-test', 'by-person', ''] as const;

/** Several tests on one day: their order, on which rig each is done, and who goes through them how. */
export function BatteryChoice(props: BatteryChoiceProps) {
  const { tests, battery, rigs, testRigs } = props;
  const t = dayWords.plan;
  const id = useId();
  const usual = inUsualOrder(tests);
  const isUsual = usual.every((test, i) => test === tests[i]);
  return (
    <>
      <fieldset className="battery-order">
        <legend>{t.orderOfTests}</legend>
        <ol className="battery-tests">
          {tests.map((test, i) => (
            <li key={test}>
              <span className="number">{i + 1}</span>
              <b>{testTitle(test)}</b>
              <span className="battery-moves">
                <button
                  type="button"
                  className="button quiet move-up"
                  aria-label={t.testEarlier(testTitle(test))}
                  disabled={i === 0}
                  onClick={() => props.onOrder(movedBy(tests, test, -1), true)}
                >
                  <Icon name="open" size={16} />
                </button>
                <button
                  type="button"
                  className="button quiet"
                  aria-label={t.testLater(testTitle(test))}
                  disabled={i === tests.length - 1}
                  onClick={() => props.onOrder(movedBy(tests, test, 1), true)}
                >
                  <Icon name="open" size={16} />
                </button>
              </span>
              {rigs.length > 1 && (
                <select
                  aria-label={t.testRig(testTitle(test))}
                  value={rigs.some((rig) => rig.id === testRigs[test]) ? testRigs[test] : ''}
                  onChange={(event) => props.onRig(test, event.target.value)}
                >
                  <option value="">{t.anyRig}</option>
                  {rigs.map((rig) => (
                    <option key={rig.id} value={rig.id}>
                      {rig.name}
                    </option>
                  ))}
                </select>
              )}
            </li>
          ))}
        </ol>
        <p className="small soft">
          {t.usualHelp}{' '}
          {!isUsual && (
            <button type="button" className="button quiet" onClick={() => props.onOrder(usual, false)}>
              {t.usualOrder}
            </button>
          )}
        </p>
      </fieldset>
      <fieldset>
        <legend>{t.battery}</legend>
        {choices.map((one) => (
          <div key={one}>
            <label className="check-line">
              <input
                type="radio"
                name={`${id}battery`}
                checked={battery === one}
                aria-describedby={one === '' ? undefined : `${id}${one}`}
                onChange={() => props.onBattery(one)}
              />
              {one === '' ? t.apart : dayWords.battery.orders[one]}
            </label>
            {one !== '' && battery === one && (
              <p id={`${id}${one}`} className="small soft battery-help">
                {dayWords.battery.help[one]} {dayWords.battery.once}
              </p>
            )}
          </div>
        ))}
      </fieldset>
    </>
  );
}
