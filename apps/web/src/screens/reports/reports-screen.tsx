import { type LabId, type ReportAppearance, reportKind, reportRoutes } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { appearanceQuery, reportContentQuery } from '../../data/reports.ts';
import { problemOf } from '../../data/station.ts';
import { FollowPlaces } from '../../parts/follow-places.tsx';
import { LabMissing } from '../../parts/lab-missing.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { reportWords as t } from '../../words/reports.ts';
import { Choice } from '../athletes/choice.tsx';
import { AppearancePart } from './appearance-part.tsx';
import { BatchPart } from './batch-part.tsx';
import { PaperFields } from './paper-fields.tsx';
import { Preview } from './preview.tsx';
import { SubjectFields } from './subject-fields.tsx';
import { TakePart } from './take-part.tsx';
import { neededOf, queryOf, type ReportChoice, useReport } from './use-report.ts';
import '../../parts/form.css';
import './reports.css';

/** What do I hand out? Choose on the left, look on the right, take it along. */
export function ReportsScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const report = useReport();
  const may = useMay();
  const look = useQuery(appearanceQuery(lab));
  if (look.isError && problemOf(look.error).code === 'lab-missing')
    return (
      <section className="page live-page">
        <h1>{t.title}</h1>
        <LabMissing />
      </section>
    );
  if (!may(reportRoutes.reportContent))
    return (
      <section className="page live-page">
        <h1>{t.title}</h1>
        <p>{t.elsewhere}</p>
      </section>
    );
  return (
    <section className="page live-page report-page">
      <FollowPlaces lab={lab} />
      <div className="page-head">
        <h1>{t.title}</h1>
        <p className="soft">{t.question}</p>
      </div>
      {look.isError && <ProblemCard error={look.error} onRetry={() => void look.refetch()} />}
      <div className="report-desk">
        <div className="report-choices">
          <div className="panel">
            <Choice label={t.what} value={report.kind} onChange={(value) => report.choose('kind', value)}>
              {reportKind.options.map((kind) => (
                <option key={kind} value={kind}>
                  {t.kinds[kind]}
                </option>
              ))}
            </Choice>
            <p className="small soft">{t.about[report.kind]}</p>
            <SubjectFields lab={lab} report={report} />
            {look.data && <PaperFields look={look.data} report={report} />}
          </div>
          {report.kind === 'athlete' && <BatchPart lab={lab} report={report} />}
          {look.data && <AppearancePart key={lab} lab={lab} look={look.data} />}
        </div>
        <Shown lab={lab} report={report} look={look.data} />
      </div>
    </section>
  );
}

interface ShownProps {
  readonly lab: LabId;
  readonly report: ReportChoice;
  readonly look: ReportAppearance | undefined;
}

/** The report itself, or what has to be chosen first. */
function Shown({ lab, report, look }: ShownProps) {
  const needed = neededOf(report.kind);
  const chosen = needed === undefined || report.values[needed] !== undefined;
  const asked = queryOf(report);
  const { data, isError, error, isFetching, isPlaceholderData, refetch } = useQuery({
    ...reportContentQuery(lab, report.kind, asked),
    enabled: chosen,
  });
  if (!chosen)
    return (
      <div className="nothing">
        <h2>{t.choose.title}</h2>
        <p>{t.choose[needed]}</p>
      </div>
    );
  if (isError) return <ProblemCard error={error} onRetry={() => void refetch()} />;
  if (data === undefined || isPlaceholderData)
    return (
      <p className="report-sheet report-waiting" role="status">
        {t.making}
      </p>
    );
  return (
    <div className="report-shown" aria-busy={isFetching}>
      <TakePart lab={lab} report={report} content={data} />
      <Preview lab={lab} report={report} content={data} look={look} />
    </div>
  );
}
