import { useEffect, useState } from 'react';
import { deviceNow } from '../../live/index.ts';
import type { FilmState } from '../../video/film-store.ts';
import { filmSays } from '../../video/film-words.ts';
import { videoWords } from '../../words/video.ts';

const words = videoWords.camera;

/** The recording light, what the camera does or waits for, and what is safe at the station. */
export function FilmStatus({
  state,
  onCamera,
  onStation,
}: {
  state: FilmState;
  onCamera: () => void;
  onStation: () => void;
}) {
  const says = filmSays(state);
  const filming = state.under !== undefined;
  const noCamera = ['denied', 'none', 'busy', 'lost', 'no-recorder'].includes(state.camera);
  return (
    <section className="film-status" data-tone={says.tone}>
      <p className="film-light" data-on={filming}>
        <i aria-hidden="true" />
        {filming ? words.light.on : words.light.off}
      </p>
      <p className="film-says" role="status">
        {says.words}
      </p>
      {says.next !== undefined && <p className="small">{says.next}</p>}
      {noCamera && (
        <button type="button" className="button" onClick={onCamera}>
          {words.again}
        </button>
      )}
      {state.link === 'lost' && !noCamera && (
        <button type="button" className="button" onClick={onStation}>
          {words.now}
        </button>
      )}
      <UploadLines state={state} />
    </section>
  );
}

function UploadLines({ state: { upload, clock } }: { state: FilmState }) {
  const now = useSeconds();
  const t = words.upload;
  const { waiting, films, confirmedAt, retrying, refused } = upload;
  return (
    <>
      <h2>{t.title}</h2>
      {waiting === 0 && films === 0 && confirmedAt === undefined && <p>{t.none}</p>}
      {films > 0 && <p>{t.safe(films)}</p>}
      {waiting > 0 && <p className="film-waiting">{t.waiting(waiting)}</p>}
      {retrying && <p>{t.retrying}</p>}
      {confirmedAt !== undefined && (
        <p className="small soft">{t.last(Math.max(0, Math.round((now - confirmedAt) / 1000)).toString())}</p>
      )}
      {refused !== undefined && (
        <div role="alert">
          <p>
            <strong>{t.refused}</strong> {refused.detail}
          </p>
          <p className="small">
            {refused.next} <span className="soft number">{refused.code}</span>
          </p>
        </div>
      )}
      <p className="small soft">{clock === undefined ? words.noClock : words.clock(Math.max(0.1, clock).toFixed(1))}</p>
    </>
  );
}

/** The device clock, once a second. */
function useSeconds(): number {
  const [now, setNow] = useState(deviceNow);
  useEffect(() => {
    const timer = setInterval(() => setNow(deviceNow()), 1000);
    return () => clearInterval(timer);
  }, []);
  return now;
}
