import { type ReportQuery, usualDaysApart } from '@sthene/contract';
import type { BatteryInput } from '@sthene/report';
import type { OpenLab } from '../../labs/open-lab.ts';
import { batteryView } from '../battery/battery.ts';
import { nameOf, showPerson } from '../people.ts';
import type { Said } from './handed-out.ts';
import { missing, nothingToSay } from './refusals.ts';

/** What the page of an athlete's tests together is made of: what the athlete's screen shows of them. */
export async function batteryInput(lab: OpenLab, asked: ReportQuery): Promise<Said<BatteryInput>> {
  if (!asked.person) throw missing('athlete', '"person", an id or a code');
  const id = (await lab.store.people.byCode(asked.person))?.id ?? asked.person;
  const { on, apart = usualDaysApart, pushOff } = asked;
  const view = await batteryView(lab, id, { on, apart, pushOff });
  const person = await showPerson(lab, id);
  if (person === undefined || (view.tests.length === 0 && view.profile.current === undefined))
    throw nothingToSay('This athlete has no session with a value yet.');
  return {
    input: {
      person: { name: nameOf(person), code: person.code, birthDate: person.birthDate },
      ...{
        apart,
        tests: view.tests,
        ratios: view.ratios,
        profile: view.profile.current,
        profileLack: view.profile.lack,
      },
    },
    // The page says no word on a change, so none can come to read otherwise.
    says: [],
  };
}
