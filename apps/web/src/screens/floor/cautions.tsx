import type { Day, DayEntry, RigFloor } from '@sthene/contract';
import { liveWords as words } from '../../words/live.ts';

export interface CautionsProps {
  readonly floor: RigFloor | undefined;
  readonly day: Day | undefined;
  readonly entry: DayEntry | undefined;
}

/** What must be thought of before a maximal effort, and what holds for this athlete. */
export function Cautions({ floor, day, entry }: CautionsProps) {
  const before = floor?.phase === 'set-up' || floor?.phase === 'ready';
  const gates = entry?.gates ?? [];
  if (!before || floor?.turn?.effort.kind !== 'maximal') return null;
  return (
    <section className="cautions small">
      <h2>{words.cautions.title}</h2>
      <ul>
        {gates.map((gate) => (
          <li key={gate.id ?? gate.kind}>
            <b>{gate.words}</b>
          </li>
        ))}
        {(day?.cautions ?? []).map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </section>
  );
}
