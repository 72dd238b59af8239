import type { Lab } from '@sthene/contract';
import type { ReactNode } from 'react';
import { Link } from 'react-router';
import { startWords as t } from '../../words/start.ts';
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

/** One card of the list. */
export function Choice({
  title,
  text,
  mark,
  main,
  children,
}: {
  title: string;
  text: string;
  mark?: ReactNode;
  main?: boolean;
  children: ReactNode;
}) {
  return (
    <li className="choice" data-main={main === true}>
      <h2>
        {title} {mark}
      </h2>
      <p>{text}</p>
      <div className="choice-act">{children}</div>
    </li>
  );
}
