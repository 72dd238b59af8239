import { largestNudge, type VideoView, videoRoutes } from '@sthene/contract';
import { useEffect, useRef, useState } from 'react';
import { useMay } from '../../data/access.ts';
import { filmAddress, useTrialVideos, useVideoAct } from '../../data/videos.ts';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { SignFirst, useSigned } from '../../parts/signed.tsx';
import { videoWords } from '../../words/video.ts';
import { FilmRemove } from './film-remove.tsx';
import { frameLength, recordingTime } from './film-time.ts';
import { useShared } from './trial-context.ts';
import { useFilmCursor } from './use-film-cursor.ts';
import { useFilmKeys } from './use-film-keys.ts';
import './film.css';

const words = videoWords.panel;
const ms = (seconds: number) => (1000 * seconds).toFixed(0).replace('-', '\u2212');
const signed = (seconds: number) => (seconds > 0 ? `+${ms(seconds)}` : ms(seconds));

/** Films of the trial beside its curve. Where there was no camera there is nothing. */
export function FilmPanel({ hasDialog }: { hasDialog: boolean }) {
  const { lab, view } = useShared();
  const may = useMay();
  const { data } = useTrialVideos(lab, view.id, may(videoRoutes.trialVideos));
  const [chosen, setChosen] = useState(0);
  if (data === undefined || (data.videos.length === 0 && data.refused === undefined)) return null;
  const film = data.videos[Math.min(chosen, data.videos.length - 1)];
  return (
    <section className="film no-print" aria-label={words.film}>
      {data.refused !== undefined && (
        <p className="small">
          {words.refused} {data.refused}
        </p>
      )}
      {data.videos.length > 1 && (
        <div className="joined">
          {data.videos.map((one, i) => (
            <button
              key={one.id}
              type="button"
              className="button"
              aria-pressed={one === film}
              onClick={() => setChosen(i)}
            >
              {words.several(i + 1)}
            </button>
          ))}
        </div>
      )}
      {film !== undefined && <Film key={film.id} film={film} hasDialog={hasDialog} />}
    </section>
  );
}

function Film({ film, hasDialog }: { film: VideoView; hasDialog: boolean }) {
  switch (film.state) {
    case 'receiving':
      return (
        <p className="small" role="status">
          {words.receiving}
        </p>
      );
    case 'unreadable':
      return <p className="small">{words.unreadable}</p>;
    case 'dropped':
      return <p className="small">{words.dropped(whenText(film.dropped?.at ?? ''), film.dropped?.words ?? '')}</p>;
    case 'stored':
      return <Player film={film} hasDialog={hasDialog} />;
  }
}

function Player({ film, hasDialog }: { film: VideoView; hasDialog: boolean }) {
  const { lab, view, controller } = useShared();
  const player = useRef<HTMLVideoElement>(null);
  const [draft, setDraft] = useState(film.nudge);
  useEffect(() => setDraft(film.nudge), [film.nudge]);
  const [broken, setBroken] = useState(false);
  const [removing, setRemoving] = useState(false);
  const act = useVideoAct(lab, view.id);
  const cursor = useFilmCursor(player, film, draft, controller, view.recording.sampleRate);
  useFilmKeys(cursor, hasDialog || removing);
  const at = recordingTime(film, draft, film.frames[cursor.frame] ?? 0);
  return (
    <>
      <video
        ref={player}
        src={filmAddress(lab, film.id)}
        muted
        playsInline
        preload="auto"
        aria-label={words.film}
        onError={() => setBroken(true)}
        onClick={cursor.toggle}
      />
      {broken && <p className="small">{words.broken}</p>}
      <div className="film-tools">
        <span className="joined">
          <button
            type="button"
            className="button"
            aria-label={words.back}
            title={words.back}
            onClick={() => cursor.step(-1)}
          >
            {'\u25C2|'}
          </button>
          <button type="button" className="button film-play" onClick={cursor.toggle}>
            {cursor.playing ? words.pause : words.play}
          </button>
          <button
            type="button"
            className="button"
            aria-label={words.forward}
            title={words.forward}
            onClick={() => cursor.step(1)}
          >
            {'|\u25B8'}
          </button>
        </span>
        <span className="small number">
          {words.frame(cursor.frame + 1, film.frames.length)}
          {at === undefined ? '' : `, ${placeWords(at, controller.whole)}`}
        </span>
      </div>
      {cursor.outside && <p className="small soft">{words.outside}</p>}
      {film.sync === undefined && <p className="small">{words.noSync}</p>}
      <details className="film-more">
        <summary className="small">
          {film.sync === undefined
            ? words.more
            : words.close(Math.max(1, Math.ceil((1000 * film.sync.uncertainty) / film.sync.rate)).toString())}
          {film.nudge === 0 ? '' : `, ${words.moved(signed(film.nudge))}`}
        </summary>
        {film.sync !== undefined && <Nudge film={film} draft={draft} setDraft={setDraft} act={act} />}
        <div className="film-keep">
          {film.keptUntil !== undefined && (
            <p className="small soft">{words.keptUntil(whenText(`${film.keptUntil}T00:00:00`, false))}</p>
          )}
          <button type="button" className="button quiet film-remove" onClick={() => setRemoving(true)}>
            {words.remove}
          </button>
        </div>
      </details>
      {removing && <FilmRemove film={film} act={act} onClose={() => setRemoving(false)} />}
    </>
  );
}

/** Where a frame belongs on the curve; a film begins before its recording and ends after it. */
function placeWords(at: number, { from, to }: { readonly from: number; readonly to: number }): string {
  if (at < 0) return words.before;
  return at > to - from ? words.after : words.at(numberText(at, 3));
}

function Nudge({
  film,
  draft,
  setDraft,
  act,
}: {
  film: VideoView;
  draft: number;
  setDraft: (nudge: number) => void;
  act: ReturnType<typeof useVideoAct>;
}) {
  const by = useSigned();
  const frame = frameLength(film) * (film.sync?.rate ?? 1);
  const move = (step: number) =>
    setDraft(Math.min(largestNudge, Math.max(-largestNudge, Math.round(1e4 * (draft + step)) / 1e4)));
  const keep = (nudge: number) => act.mutate({ kind: 'nudge', id: film.id, nudge, revision: film.revision, by });
  const changed = draft !== film.nudge;
  return (
    <div className="film-nudge">
      <p className="small soft">{words.nudgeHelp}</p>
      <span className="joined">
        <button type="button" className="button" onClick={() => move(-frame)}>
          {words.earlier}
        </button>
        <button type="button" className="button" onClick={() => move(frame)}>
          {words.later}
        </button>
      </span>
      <span className="small number" role="status">
        {draft === 0 ? words.notMoved : words.moved(signed(draft))}
      </span>
      {changed && (
        <>
          <SignFirst />
          <button
            type="button"
            className="button main"
            disabled={by === '' || act.isPending}
            onClick={() => keep(draft)}
          >
            {words.keep}
          </button>
          <button type="button" className="button" onClick={() => setDraft(film.nudge)}>
            {words.back0}
          </button>
        </>
      )}
      {!changed && film.nudgeBefore !== undefined && (
        <button
          type="button"
          className="button"
          disabled={by === '' || act.isPending}
          onClick={() => keep(film.nudgeBefore ?? 0)}
        >
          {words.takeBack(signed(film.nudgeBefore))}
        </button>
      )}
      {act.isError && <ProblemCard error={act.error} />}
    </div>
  );
}
