import type { Day, DayEntry, RigFloor } from '@sthene/contract';
import { liveWords as words } from '../../words/live.ts';

export interface CautionsProps {
  readonly floor: RigFloor | undefined;
  readonly day: Day | undefined;
  readonly entry: DayEntry | undefined;
}

/** What holds for this athlete, what stops an effort at once, and, a touch away, the whole list before a maximal effort. */
export function Cautions({ floor, day, entry }: CautionsProps) {
  const before = floor?.phase === 'set-up' || floor?.phase === 'ready';
  const gates = entry?.gates ?? [];
  if (!before || floor?.turn?.effort.kind !== 'maximal') return null;
  return (
    <section className="floor-cautions small">
      <h2>{words.cautions.title}</h2>
      <ul>
        {gates.map((gate) => (
          <li key={`${gate.id ?? gate.kind} ${gate.words}`}>
            <b>{gate.words}</b>
          </li>
        ))}
        <li>{floor.jump === undefined ? words.cautions.short : words.cautions.shortJump}</li>
      </ul>
      <details>
        <summary>{words.cautions.more}</summary>
        <ul>
          {(day?.cautions ?? []).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}
