import type { Day, LabId } from '@sthene/contract';
import { dayWords } from '../../words/day.ts';
import { DayChoice } from './day-choice.tsx';

const t = dayWords.heats;

/** Largest heat that is offered; a day may have another size by the interface. */
const largest = 12;

/** Divides a day into heats, or takes the division away; also while the day runs. */
export function HeatsPart({ lab, day }: { lab: LabId; day: Day }) {
  const offered = Array.from({ length: largest - 1 }, (_, i) => i + 2);
  const sizes = [...new Set([...offered, ...(day.heatSize ? [day.heatSize] : [])])].sort((a, b) => a - b);
  const people = new Set(day.entries.map(({ person }) => person.id)).size;
  return (
    <DayChoice
      lab={lab}
      day={day}
      of="heatSize"
      title={t.title}
      none={t.none}
      choices={sizes.map((value) => ({ value, text: t.of(value, Math.ceil(people / value)) }))}
      help={() => t.help}
    />
  );
}
