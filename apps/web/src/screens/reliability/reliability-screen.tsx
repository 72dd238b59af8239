import type { LabId, ReliabilityFound, ReliabilityView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useLab } from '../../app/lab.ts';
import { reliabilityQuery } from '../../data/reliability.ts';
import { numberText } from '../../number/format.ts';
import { ReportLink } from '../../parts/report-link.tsx';
import { athleteWords } from '../../words/athletes.ts';
import { words } from '../../words/index.ts';
import { reliabilityWords as t } from '../../words/reliability.ts';
import { Choice } from '../athletes/choice.tsx';
import { FollowPage } from '../athletes/follow-page.tsx';
import { SquadChoice } from '../athletes/squad-choice.tsx';
import { useChoice } from '../athletes/use-choice.ts';
import { testTitle } from '../trial/test-title.ts';
import { AdoptPart } from './adopt-part.tsx';
import { LearningPart, MeansPart } from './parts.tsx';
import { asTable, studyRows } from './rows.ts';
import { RulesPart } from './rules-part.tsx';
import './reliability.css';

const counts = [2, 3, 4, 5, 6, 8, 10];

/** How good is a test here? The table a paper prints, with plain words beside each row. */
export function ReliabilityScreen() {
  const lab = useLab() ?? 'lab';
  const { squad, test, metric, sessions, choose } = useChoice();
  const query = useQuery(
    reliabilityQuery(lab, {
      ...(squad ? { squad } : {}),
      ...(test === undefined ? {} : { test }),
      ...(metric === undefined ? {} : { metric }),
      sessions: counts.find((n) => String(n) === sessions) ?? 2,
    }),
  );
  return (
    <FollowPage lab={lab} className="study-page" title={t.title} question={t.question} of={query}>
      {(data) => (
        <>
          <SquadChoice view={data}>
            <Choice label={t.sessions} value={String(data.sessions)} onChange={(value) => choose('sessions', value)}>
              {counts.map((n) => (
                <option key={n} value={n}>
                  {n}
                </option>
              ))}
            </Choice>
          </SquadChoice>
          {data.study === undefined ? (
            <p className="soft">{data.reason === 'too-few-values' ? t.none['too-few-values'] : t.none.other}</p>
          ) : (
            <Study lab={lab} view={data} study={data.study} />
          )}
        </>
      )}
    </FollowPage>
  );
}

function Study({ lab, view, study }: { lab: LabId; view: ReliabilityView; study: ReliabilityFound }) {
  const rows = studyRows(study, view);
  const title = `${view.metric.title}, ${view.test === undefined ? '' : testTitle(view.test)}`;
  return (
    <>
      <div className="study-head">
        <div>
          <h2>{title}</h2>
          <p className="soft">
            {t.from(study.complete, study.people)}. {t.interval(`${numberText(100 * study.level, 0)}\u00a0%`)}{' '}
            {view.scale === 'log' && t.logs} {study.small && t.small}
            {lab === 'example' && <span className="study-paper"> {words.app.exampleLong}.</span>}
          </p>
        </div>
        <div className="acts study-acts">
          <ReportLink
            lab={lab}
            of={{
              kind: 'reliability',
              squad: view.squad,
              test: view.test,
              metric: view.metric.id,
              sessions: String(view.sessions),
            }}
          />
          <Copy text={asTable(rows, title)} />
        </div>
      </div>
      <table className="list study-table">
        <thead>
          <tr>
            <th scope="col">{t.head.what}</th>
            <th scope="col" className="right">
              {t.head.value}
            </th>
            <th scope="col" className="right">
              {t.head.interval}
            </th>
            <th scope="col">{t.head.says}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ what, value, interval, says }) => (
            <tr key={what}>
              <th scope="row">{what}</th>
              <td className="right number peak">{value}</td>
              <td className="right number">{interval}</td>
              <td className="soft">{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">{t.caution}</p>
      <RulesPart key={`${view.squad} ${view.test} ${view.metric.id} ${view.sessions}`} lab={lab} view={view} />
      <AdoptPart lab={lab} view={view} study={study} />
      <LearningPart view={view} study={study} />
      <MeansPart view={view} study={study} />
    </>
  );
}

function Copy({ text }: { text: string }) {
  const [said, setSaid] = useState('');
  const copy = () => {
    navigator.clipboard.writeText(text).then(
      () => setSaid(t.copied),
      () => setSaid(t.notCopied),
    );
  };
  return (
    <div className="acts study-acts">
      <button type="button" className="button" onClick={copy}>
        {t.copy}
      </button>
      <button type="button" className="button" onClick={() => print()}>
        {athleteWords.print}
      </button>
      <span className="small soft" role="status">
        {said}
      </span>
    </div>
  );
}
