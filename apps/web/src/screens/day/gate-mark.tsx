import type { StandingGate } from '@sthene/contract';
import { dayWords } from '../../words/day.ts';

const paths = {
  blocks: 'M4 4v17M20 4v17M4 9h16M4 15h16',
  'submaximal-only': 'M4 4v17M20 4v17M4 13h16',
  asks: 'M4 4v17M20 4v17M4 13h4M16 13h4',
  notes: 'M4 4v17M20 4v17',
} as const;

/** A gate: two posts, and as many bars between them as it keeps back; always with its words. */
export function GateMark({ gate, full = false }: { gate: StandingGate; full?: boolean }) {
  const t = dayWords.gates;
  return (
    <span className="gate-mark" data-effect={gate.effect} title={gate.words}>
      <svg
        viewBox="0 0 24 24"
        width="18"
        height="18"
        fill="none"
        stroke="currentColor"
        strokeWidth="2.2"
        aria-hidden="true"
        focusable="false"
      >
        <path d={paths[gate.effect]} />
      </svg>
      <span>
        <b>{t.effects[gate.effect]}</b>: {full ? gate.words : t.kinds[gate.kind]}
        {full && gate.until !== undefined && <span className="soft"> ({t.until(gate.until)})</span>}
      </span>
    </span>
  );
}
