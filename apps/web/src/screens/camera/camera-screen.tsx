import { type LabId, videoRoutes } from '@sthene/contract';
import { Link, useParams } from 'react-router';
import { labFrom } from '../../app/lab.ts';
import { NotFound } from '../../app/not-found.tsx';
import { usePageTitle } from '../../app/page-title.ts';
import { useMay } from '../../data/access.ts';
import { useWakeLock } from '../../live/index.ts';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { StatusLine } from '../../parts/status.tsx';
import { useFilm } from '../../video/use-film.ts';
import { videoWords } from '../../words/video.ts';
import { FilmStatus } from './film-status.tsx';
import { KeepingForm } from './keeping-form.tsx';
import '../../parts/button.css';
import '../../parts/form.css';
import './camera.css';

const words = videoWords.camera;

/** A device that films a rig: live picture, what it waits for, and what is safe. It fills the window. */
export function CameraScreen() {
  const { lab, rig } = useParams();
  usePageTitle(words.title(''));
  const known = labFrom(lab);
  const may = useMay();
  if (known === undefined || rig === undefined) return <NotFound />;
  if (!may(videoRoutes.beginVideo)) return <MayNotFilm lab={known} />;
  return (
    <StatusLine>
      <Camera lab={known} asked={rig} key={`${known} ${rig}`} />
    </StatusLine>
  );
}

/** A device that only looks on: its films would be refused, so its camera is not even asked for. */
function MayNotFilm({ lab }: { lab: LabId }) {
  const { mayNot } = words.state;
  return (
    <main id="page" className="page">
      <h1>{mayNot.words}</h1>
      <p>{mayNot.next}</p>
      <p>
        <Link to={`/${lab}/sessions`}>{words.leave}</Link>
      </p>
    </main>
  );
}

function Camera({ lab, asked }: { lab: LabId; asked: string }) {
  const { state, picture, again, retry } = useFilm(lab, asked);
  const { rig, picture: size, under } = state;
  // A tablet that falls asleep films nothing.
  useWakeLock(true);
  return (
    <div className="camera">
      <header className="camera-top">
        <h1>
          {rig && <RigLetter letter={rig.letter} shape={rig.shape} />}
          {words.title(rig?.letter ?? '')}
        </h1>
        <Link className="button quiet" to={`/${lab}/floor/${rig?.id ?? asked}`}>
          {words.leave}
        </Link>
      </header>
      <main id="page" className="camera-body">
        <section className="camera-picture" data-filming={under !== undefined}>
          <video ref={picture} muted playsInline aria-label={words.picture} />
          {state.camera !== 'ready' && <p className="camera-no-picture">{words.noPicture}</p>}
          {size !== undefined && state.camera === 'ready' && (
            <p className="camera-size number small">{words.size(size.width, size.height)}</p>
          )}
        </section>
        <aside className="camera-side">
          <FilmStatus state={state} onCamera={again} onStation={retry} />
          <p className="small soft">{words.consent}</p>
          <KeepingForm lab={lab} />
        </aside>
      </main>
    </div>
  );
}
