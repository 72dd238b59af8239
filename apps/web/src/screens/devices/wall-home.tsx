import type { LabId } from '@sthene/contract';
import { Link, Navigate } from 'react-router';
import { useLab } from '../../app/lab.ts';
import { usePageTitle } from '../../app/page-title.ts';
import { useWall } from '../../live/index.ts';
import { deviceWords } from '../../words/devices.ts';
import '../../parts/button.css';
import './devices.css';

const t = deviceWords.wall;

/** Where a paired wall begins: at its rig, or at the choice between rigs. It knows them from the wall's own messages alone. */
export function WallHome() {
  usePageTitle(t.title);
  const lab = useLab() ?? 'lab';
  return <Choice lab={lab} key={lab} />;
}

function Choice({ lab }: { lab: LabId }) {
  const { state } = useWall(lab);
  const rigs = state.wall?.rigs ?? [];
  const [only] = rigs;
  if (rigs.length === 1 && only !== undefined) return <Navigate to={`/${lab}/wall/${only.rig}`} replace />;
  return (
    <main className="wall-home" id="page">
      <h1>{rigs.length > 0 ? t.which : state.link === 'lost' ? t.lost : t.none}</h1>
      <div className="acts">
        {rigs.map((rig) => (
          <Link key={rig.rig} className="button" to={`/${lab}/wall/${rig.rig}`}>
            {t.rig(rig.letter)}
          </Link>
        ))}
      </div>
    </main>
  );
}
