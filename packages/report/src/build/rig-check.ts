import type { RigCheckFacts } from '../input/common.ts';
import type { Pen } from './frame.ts';

/** The checks of the rigs in one line; that there is none is said too. */
export function rigCheckText(checks: readonly (RigCheckFacts | undefined)[], { words, numbers, dates }: Pen): string {
  const known = checks.filter((one) => one !== undefined);
  if (known.length === 0) return words.common.noRigCheck;
  return known
    .map(({ rig, at, verdict, checkedTo }) => {
      const reach = checkedTo > 0 ? [words.plates.checkedTo(numbers.quantity(checkedTo, 'N'))] : [];
      const said = [words.plates.verdict[verdict], ...reach];
      return `${rig}, ${dates.day(at)}: ${said.join(', ')}`;
    })
    .join('; ');
}
