import type { Day, LabId } from '@sthene/contract';
import { dayWords } from '../../words/day.ts';
import { DayChoice } from './day-choice.tsx';

const t = dayWords.battery;
const orders = ['by-test', 'by-person'] as const;

/** How people go through the tests of a battery; may be changed while the day runs. */
export function BatteryPart({ lab, day }: { lab: LabId; day: Day }) {
  return (
    <DayChoice
      lab={lab}
      day={day}
      of="battery"
      title={t.title}
      none={t.none}
      choices={orders.map((value) => ({ value, text: t.orders[value] }))}
      help={(order) => (order === undefined ? undefined : `${t.help[order]} ${t.once}`)}
    />
  );
}
