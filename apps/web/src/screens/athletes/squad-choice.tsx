import type { Squad } from '@sthene/contract';
import type { ReactNode } from 'react';
import { athleteWords as t } from '../../words/athletes.ts';
import { testTitle } from '../trial/test-title.ts';
import { Choice } from './choice.tsx';
import { useChoice } from './use-choice.ts';
import './squad-choice.css';

interface Chosen {
  readonly squads?: readonly Squad[];
  readonly squad?: string | undefined;
  readonly tests: readonly { readonly id: string; readonly sessions: number }[];
  readonly test?: string | undefined;
  readonly metrics: readonly { readonly id: string; readonly title: string }[];
  readonly metric: { readonly id: string };
}

/** Squad, test and value of a page over many athletes, and what else the page lets one choose. */
export function SquadChoice({ view, children }: { view: Chosen; children?: ReactNode }) {
  const { choose } = useChoice();
  return (
    <div className="squad-choice">
      {view.squads && (
        <Choice label={t.squad} value={view.squad ?? ''} onChange={(value) => choose('squad', value)}>
          <option value="">{t.everybody}</option>
          {view.squads.map(({ id, name, members }) => (
            <option key={id} value={id}>
              {t.squadOf(name, members)}
            </option>
          ))}
        </Choice>
      )}
      <Choice label={t.test} value={view.test ?? ''} onChange={(value) => choose('test', value)}>
        {view.tests.map(({ id, sessions }) => (
          <option key={id} value={id}>
            {t.sessionsOf(testTitle(id), sessions)}
          </option>
        ))}
      </Choice>
      <Choice label={t.metric} value={view.metric.id} onChange={(value) => choose('metric', value)}>
        {view.metrics.map(({ id, title }) => (
          <option key={id} value={id}>
            {title}
          </option>
        ))}
      </Choice>
      {children}
    </div>
  );
}
