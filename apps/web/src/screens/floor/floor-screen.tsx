import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { rigsQuery } from '../../data/rigs.ts';
import { type LiveState, useLive } from '../../live/index.ts';
import { StatusLine } from '../../parts/status.tsx';
import { liveWords as words } from '../../words/live.ts';
import { FloorBody } from './floor-body.tsx';
import '../../parts/button.css';
import '../../parts/menu.css';
import './floor.css';
import './floor-parts.css';

/** The screen on which a test runs, at one rig. It fills the window: nothing of the other pages stands in its way. */
export function FloorScreen() {
  const { lab, rig } = useParams();
  usePageTitle(words.floor);
  const known = labFrom(lab);
  if (known === undefined || rig === undefined) return <NotFound />;
  return (
    <StatusLine>
      <Floor lab={known} rig={rig} key={`${known} ${rig}`} />
    </StatusLine>
  );
}

function Floor({ lab, rig: asked }: { lab: LabId; rig: string }) {
  const { store, state } = useLive(lab);
  const id =
    asked in state.rigs
      ? asked
      : Object.values(state.rigs).find(({ view }) => view?.letter === asked.toUpperCase())?.view?.id;
  const rig = id === undefined ? undefined : state.rigs[id];
  if (id !== undefined && rig !== undefined)
    return <FloorBody lab={lab} id={id} rig={rig} state={state} store={store} />;
  return state.link === 'open' ? <NotOpen lab={lab} asked={asked} /> : <NotConnected lab={lab} state={state} />;
}

function NotConnected({ lab, state }: { lab: LabId; state: LiveState }) {
  const opening = state.link === 'opening';
  return (
    <main className="floor-empty" id="page">
      <h1>{opening ? words.opening : words.link[state.link === 'lost' ? 'lost' : 'other']}</h1>
      <p className="soft" role="status">
        {state.link === 'lost' ? words.link.retrying : ''}
      </p>
      <Link to={`/${lab}/day`}>{words.leave}</Link>
    </main>
  );
}

/** A rig of this lab that nobody has opened, or none of this lab. */
function NotOpen({ lab, asked }: { lab: LabId; asked: string }) {
  const rigs = useQuery(rigsQuery(lab));
  const rig = rigs.data?.find(({ id, letter }) => id === asked || letter === asked.toUpperCase());
  const { closedRig, noRig } = words;
  return (
    <main className="floor-empty" id="page" aria-busy={rigs.isPending}>
      <h1>{rig ? closedRig.title(rig.letter) : rigs.isPending ? words.opening : noRig.title}</h1>
      <p className="soft" role="status">
        {rig ? closedRig.text : rigs.isPending ? '' : noRig.text}
      </p>
      <p className="floor-empty-ways">
        {rig && <Link to={`/${lab}/rig/${rig.id}`}>{closedRig.rig}</Link>}
        <Link to={`/${lab}/day`}>{closedRig.day}</Link>
      </p>
    </main>
  );
}
