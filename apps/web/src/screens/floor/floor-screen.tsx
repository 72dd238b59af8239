import type { LabId } from '@sthene/contract';
import { Link, useParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { useLive } from '../../live/index.ts';
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
  const missing = state.link === 'open';
  return (
    <main className="floor-empty" id="page">
      <h1>
        {missing
          ? words.noRig.title
          : state.link === 'opening'
            ? words.opening
            : words.link[state.link === 'lost' ? 'lost' : 'other']}
      </h1>
      <p className="soft" role="status">
        {missing ? words.noRig.text : state.link === 'lost' ? words.link.retrying : ''}
      </p>
      <Link to={`/${lab}/day`}>{words.leave}</Link>
    </main>
  );
}
