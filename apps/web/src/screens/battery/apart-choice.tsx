import { usualDaysApart } from '@sthene/contract';
import { batteryWords as t } from '../../words/battery.ts';
import { Choice } from '../athletes/choice.tsx';

const usual = [0, 7, 14, 28, 42, 84];

/** How many days may lie between the tests of one ratio; a number chosen elsewhere stands among the usual ones. */
export function ApartChoice({ value, onChange }: { value: number; onChange: (days: string) => void }) {
  const days = usual.includes(value) ? usual : [...usual, value].sort((a, b) => a - b);
  return (
    <Choice label={t.apart} value={String(value)} onChange={onChange}>
      {days.map((n) => (
        <option key={n} value={n}>
          {t.apartOf(n, n === usualDaysApart)}
        </option>
      ))}
    </Choice>
  );
}
