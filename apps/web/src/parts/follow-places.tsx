import { followRoutes, type LabId, reportRoutes } from '@sthene/contract';
import { NavLink } from 'react-router';
import { useMay } from '../data/access.ts';
import { followWords } from '../words/follow.ts';
import './follow-places.css';

/** Where one can go around athletes: one strip above each of these pages. */
export function FollowPlaces({ lab }: { lab: LabId }) {
  const t = followWords.places;
  const may = useMay();
  return (
    <nav className="follow-places" aria-label={t.label}>
      <NavLink to={`/${lab}/today`}>{t.today}</NavLink>
      <NavLink to={`/${lab}/athletes`} end>
        {t.athletes}
      </NavLink>
      <NavLink to={`/${lab}/before`}>{t.before}</NavLink>
      <NavLink to={`/${lab}/reliability`}>{t.reliability}</NavLink>
      <NavLink to={`/${lab}/norms`}>{t.norms}</NavLink>
      <NavLink to={`/${lab}/methods`}>{t.methods}</NavLink>
      {may(followRoutes.createBlindStudy) && <NavLink to={`/${lab}/blind`}>{t.blind}</NavLink>}
      {may(reportRoutes.reportContent) && <NavLink to={`/${lab}/reports`}>{t.reports}</NavLink>}
    </nav>
  );
}
