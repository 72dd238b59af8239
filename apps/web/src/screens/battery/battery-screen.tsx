import type { BatteryView, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams, useSearchParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { batteryQuery } from '../../data/follow.ts';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { ReportLink } from '../../parts/report-link.tsx';
import { athleteWords } from '../../words/athletes.ts';
import { batteryWords as t } from '../../words/battery.ts';
import { words } from '../../words/index.ts';
import { TableSkeleton } from '../sessions/session-table.tsx';
import { ApartChoice } from './apart-choice.tsx';
import { ProfilePart } from './profile-part.tsx';
import { pushOffEntry } from './push-off.ts';
import { RatioPart } from './ratio-part.tsx';
import '../sessions/sessions.css';
import '../athletes/athletes.css';
import '../athletes/squad-choice.css';
import './battery.css';

/** What do an athlete's tests say together? Kept in the address: the last day, the days between tests, the push-off distance. */
export function BatteryScreen() {
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const [search] = useSearchParams();
  const asked = askedOf(search);
  const battery = useQuery(batteryQuery(lab, id, asked));
  const { data } = battery;
  usePageTitle(data ? `${t.title}: ${data.person.name}` : t.title);
  return (
    <section className="page follow-page battery-page" aria-busy={battery.isFetching}>
      <Link to={`/${lab}/athletes/${id}`} className="way-back">
        <Icon name="left" size={16} />
        {data ? data.person.name : words.app.athletes}
      </Link>
      {battery.isError && <ProblemCard error={battery.error} onRetry={() => void battery.refetch()} />}
      {!data && !battery.isError && <TableSkeleton />}
      {data && <Shown lab={lab} view={data} />}
    </section>
  );
}

/** What the address asks for; what is no day and no number is left out. */
function askedOf(search: URLSearchParams) {
  const [on, apart] = [search.get('on'), Number(search.get('apart') ?? Number.NaN)];
  const pushOff = pushOffEntry(search.get('pushOff') ?? '');
  return {
    ...(on !== null && /^\d{4}-\d{2}-\d{2}$/.test(on) ? { on } : {}),
    ...(Number.isInteger(apart) && apart >= 0 && apart <= 120 ? { apart } : {}),
    ...(pushOff.ok && pushOff.value !== '' ? { pushOff: Number(pushOff.value) } : {}),
  };
}

function Shown({ lab, view }: { lab: LabId; view: BatteryView }) {
  const [search, setSearch] = useSearchParams();
  const choose = (key: 'on' | 'apart' | 'pushOff', value: string) =>
    setSearch(
      (now) => {
        const next = new URLSearchParams(now);
        if (value === '') next.delete(key);
        else next.set(key, value);
        return next;
      },
      { replace: true },
    );
  return (
    <>
      <header className="follow-head">
        <div>
          <h1>
            {view.person.name} <span className="soft small code">{view.person.code}</span>
          </h1>
          <p className="soft">
            {t.title}: {t.question}
            <span className="follow-paper">{lab === 'example' && ` \u00b7 ${words.app.exampleLong}`}</span>
          </p>
        </div>
        <div className="acts follow-acts">
          <ReportLink
            lab={lab}
            of={{
              ...{ kind: 'battery', person: view.person.id, on: view.on },
              ...{ apart: search.get('apart') ?? undefined, pushOff: search.get('pushOff') ?? undefined },
            }}
          />
          <button type="button" className="button" onClick={() => print()}>
            {athleteWords.print}
          </button>
        </div>
      </header>
      <div className="squad-choice battery-choice">
        <ApartChoice value={view.apart} onChange={(value) => choose('apart', value)} />
        <div className="field">
          <label htmlFor="battery-on">{t.on}</label>
          <input
            id="battery-on"
            type="date"
            value={view.on ?? ''}
            onChange={(event) => choose('on', event.target.value)}
          />
        </div>
      </div>
      {view.sessions === 0 ? (
        <p className="nothing">{view.later === 0 ? t.nothing : t.later(view.later)}</p>
      ) : (
        <>
          {view.ratios.map((ratio) => (
            <RatioPart key={ratio.id} lab={lab} ratio={ratio} />
          ))}
          <ProfilePart
            lab={lab}
            profile={view.profile}
            pushOff={search.get('pushOff') ?? ''}
            onPushOff={(value) => choose('pushOff', value)}
          />
          <p className="small soft">{t.foot}</p>
        </>
      )}
    </>
  );
}
