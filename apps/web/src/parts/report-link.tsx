import { type LabId, reportRoutes } from '@sthene/contract';
import { Link } from 'react-router';
import { useMay } from '../data/access.ts';
import { athleteWords } from '../words/athletes.ts';

interface LinkProps {
  readonly lab: LabId;
  /** What the page is of, as the address of Reports says it; what is undefined is left out. */
  readonly of: Readonly<Record<string, string | undefined>>;
}

/** The way from what is looked at to the page one can hand out of it. */
export function ReportLink({ lab, of }: LinkProps) {
  const may = useMay();
  if (!may(reportRoutes.reportContent)) return null;
  const known = Object.entries(of).filter((one): one is [string, string] => one[1] !== undefined && one[1] !== '');
  return (
    <Link className="button no-print" to={`/${lab}/reports?${new URLSearchParams(known)}`}>
      {athleteWords.report}
    </Link>
  );
}
