import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { rigsQuery } from '../../data/rigs.ts';
import { words } from '../../words/index.ts';
import { startWords } from '../../words/start.ts';
import { StandingMark } from '../rig/standing-mark.tsx';
import { checksDue } from './checks-due.ts';
import '../rig/rig.css';

/** Days pass slowly; the rigs are not watched here. */
const every = 60_000;

/** Which plates want a check, each with the way to it; nothing where all is good. */
export function PlatesDue({ lab, demo }: { lab: LabId; demo: boolean }) {
  const t = startWords.plates;
  const rigs = useQuery({ ...rigsQuery(lab), refetchInterval: every });
  const lines = checksDue(rigs.data ?? []);
  if (lines.length === 0) return null;
  return (
    <section className="plates-due" aria-label={demo ? `${t.title}, ${words.app.example}` : t.title}>
      <h2>
        {t.title} {demo && <span className="example-mark small">{words.app.example}</span>}
      </h2>
      <ul>
        {lines.map(({ id, letter, name, standing, why }) => (
          <li key={id}>
            <StandingMark standing={standing} word={why} />
            <Link to={`/${lab}/rig/${id}/check`}>{t.rig(letter, name)}</Link>
          </li>
        ))}
      </ul>
    </section>
  );
}
