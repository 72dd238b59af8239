import type { Lab } from '@sthene/contract';
import { Link } from 'react-router';
import { startWords as t } from '../../words/start.ts';
import { Choice } from './choice.tsx';
import { ExampleChoice } from './example-choice.tsx';
import { SetUpLab } from './set-up-lab.tsx';

/** What one can do from here. What is done already is not offered again. */
export function Choices({ own, example }: { own: Lab | undefined; example: Lab | undefined }) {
  return (
    <ul className="choices">
      <ExampleChoice example={example} />
      {own && !own.exists && (
        <Choice title={t.lab.title} text={t.lab.text}>
          <SetUpLab />
        </Choice>
      )}
      {!own?.exists && (
        <Choice title={t.import.title} text={t.import.text}>
          <Link className="button" to="/lab/import">
            {t.import.act}
          </Link>
        </Choice>
      )}
      <Choice title={t.guide.title} text={t.guide.text}>
        <Link className="button" to="/guide">
          {t.guide.act}
        </Link>
      </Choice>
    </ul>
  );
}
