import { words } from '../../words/index.ts';
import { useShared } from './trial-context.ts';

export type SectionName = 'values' | 'checks' | 'decisions';

/** Chooses what stands beside the curve where there is no room for everything. */
export function Sections({ current, onChange }: { current: SectionName; onChange: (name: SectionName) => void }) {
  const { view } = useShared();
  const found = Object.values(view.result.checks).filter(
    (check) => check.status === 'warn' || check.status === 'fail',
  ).length;
  const counts = { values: 0, checks: found, decisions: view.decisions.length };
  return (
    <nav className="sections" aria-label={words.trial.sections.label}>
      {(['values', 'checks', 'decisions'] as const).map((name) => (
        <button key={name} type="button" aria-pressed={current === name} onClick={() => onChange(name)}>
          {words.trial.sections[name]}
          {counts[name] > 0 && <span className="sections-count number">{counts[name]}</span>}
        </button>
      ))}
    </nav>
  );
}
