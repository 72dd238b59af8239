import { type LabId, liveRoutes, type RigView } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link, useParams } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { keepLast, rigQuery, rigsQuery, sourcesQuery, useRigAct } from '../../data/rigs.ts';
import { deviceNow, useLive } from '../../live/index.ts';
import { Elsewhere } from '../../parts/elsewhere.tsx';
import { Icon } from '../../parts/icon.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { useSay } from '../../parts/status.tsx';
import { dayWords } from '../../words/day.ts';
import { words } from '../../words/index.ts';
import { rigWords as t } from '../../words/rig.ts';
import { rigCheckWords } from '../../words/rig-check.ts';
import { ChannelTable } from './channel-table.tsx';
import { ForceNow } from './force-now.tsx';
import { OutletPart } from './outlet-part.tsx';
import { readyCheck } from './ready-check.ts';
import { RigForm } from './rig-form.tsx';
import { SourcesPart } from './sources-part.tsx';
import { RigStateMark, StandingMark } from './standing-mark.tsx';
import { TroublePart } from './trouble-part.tsx';
import '../../parts/form.css';
import './rig.css';

const keptSeconds = 30;

/** Do the plates of this rig measure? */
export function RigScreen() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  const { id = '' } = useParams();
  const query = useQuery(rigQuery(lab, id));
  if (query.data) return <RigPage lab={lab} rig={query.data} away={query.isError} />;
  return (
    <section className="page live-page">
      <WayBack lab={lab} />
      {query.isError ? (
        <ProblemCard page error={query.error} onRetry={() => void query.refetch()} />
      ) : (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
    </section>
  );
}

function WayBack({ lab }: { lab: LabId }) {
  return (
    <Link className="way-back" to={`/${lab}/rig`}>
      <Icon name="left" size={16} /> {t.back}
    </Link>
  );
}

function RigPage({ lab, rig, away }: { lab: LabId; rig: RigView; away: boolean }) {
  const { state } = useLive(lab);
  const live = state.link === 'open' ? state.rigs[rig.id] : undefined;
  const may = useMay();
  const confirmed = live?.confirmed;
  const heard = confirmed === undefined ? 0 : Math.max(0, deviceNow() - confirmed.at);
  const rows = readyCheck(
    rig,
    confirmed === undefined ? undefined : { recording: confirmed.recording, age: confirmed.age, heard },
  );
  return (
    <section className="page live-page rig-page">
      <WayBack lab={lab} />
      <div className="page-head rig-head">
        <RigLetter letter={rig.letter} shape={rig.shape} size={40} />
        <h1>{rig.name}</h1>
        <RigStateMark state={rig.state} />
        <p className="soft">{rig.words}</p>
      </div>
      {away && (
        <p className="band" role="alert">
          {t.offline}
        </p>
      )}
      {may(liveRoutes.openRig) && <SignFirst />}
      <RigActs lab={lab} rig={rig} />
      <div className="rig-columns">
        <section className="panel" aria-labelledby="check">
          <h2 id="check">{t.check.title}</h2>
          <ul className="ready-rows">
            {rows.map((row) => (
              <li key={row.id}>
                <h3>{row.title}</h3>
                <StandingMark standing={row.standing} />
                <span className="ready-value number">{row.value}</span>
                <p className="small soft">{row.words}</p>
              </li>
            ))}
          </ul>
        </section>
        <div className="rig-side">
          <ForceNow rig={rig} now={live?.now} trace={live?.trace} />
          <ChannelTable rig={rig} now={live?.now} />
          <SourcesPart lab={lab} rig={rig} />
          {may(liveRoutes.rigOutlet) && <OutletPart lab={lab} rig={rig} />}
          {rig.virtual && rig.sources.length === 1 && rig.state !== 'closed' && may(liveRoutes.troubleRig) && (
            <TroublePart lab={lab} rig={rig} />
          )}
        </div>
      </div>
    </section>
  );
}

function RigActs({ lab, rig }: { lab: LabId; rig: RigView }) {
  const act = useRigAct(lab);
  const by = useSigned();
  const say = useSay();
  const rigs = useQuery(rigsQuery(lab));
  const may = useMay();
  const sources = useQuery({ ...sourcesQuery(lab), enabled: may(liveRoutes.sources) });
  const [changing, setChanging] = useState(false);
  const [failed, setFailed] = useState<unknown>();
  const closed = rig.state === 'closed';
  const signed = (then: () => void) => (by ? then() : say(dayWords.sign.needed));
  const keep = () =>
    void keepLast(lab, rig.id, keptSeconds, by).then(
      ({ fileName }) => {
        setFailed(undefined);
        say(t.acts.kept(fileName));
      },
      (error: unknown) => setFailed(error),
    );
  return (
    <>
      <div className="acts">
        {may(closed ? liveRoutes.openRig : liveRoutes.closeRig) && (
          <button
            type="button"
            className={closed ? 'button main' : 'button'}
            disabled={act.isPending}
            onClick={() => signed(() => act.mutate({ kind: closed ? 'open' : 'close', id: rig.id, by }))}
          >
            {closed ? t.acts.open : t.acts.close}
          </button>
        )}
        {!closed && may(liveRoutes.keepRecent) && (
          <button type="button" className="button" onClick={() => signed(keep)}>
            {t.acts.keep}
          </button>
        )}
        {may(liveRoutes.changeRig) && (
          <button
            type="button"
            className="button"
            disabled={!closed}
            title={closed ? t.acts.change : t.acts.changeClosed}
            onClick={() => setChanging(true)}
          >
            {t.acts.change}
          </button>
        )}
        <Link className="button" to={`/${lab}/rig/${rig.id}/check`}>
          {rigCheckWords.open}
        </Link>
        <Link className="button quiet" to={`/${lab}/floor/${rig.id}`}>
          {t.acts.floor}
        </Link>
        <Link className="button quiet" to={`/${lab}/wall/${rig.id}`}>
          {t.acts.wall}
        </Link>
      </div>
      <Elsewhere unless={liveRoutes.openRig} about="rigActs" />
      {act.isError && <ProblemCard error={act.error} />}
      {failed !== undefined && <ProblemCard error={failed} />}
      {changing && closed && rigs.data && sources.data && (
        <RigForm lab={lab} rigs={rigs.data} sources={sources.data} rig={rig} onClose={() => setChanging(false)} />
      )}
    </>
  );
}
