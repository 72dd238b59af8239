import type { LabId } from '@sthene/contract';
import { videoWords } from '../words/video.ts';
import { filmSays } from './film-words.ts';
import { useFilm } from './use-film.ts';
import './film-corner.css';

/** The floor's own camera: a small live picture with one sentence, nothing that takes the hands. */
export function FilmCorner({ lab, rig }: { lab: LabId; rig: string }) {
  const { state, picture } = useFilm(lab, rig);
  const says = filmSays(state);
  const { waiting } = state.upload;
  return (
    <div className="film-corner" data-tone={says.tone}>
      <video ref={picture} muted playsInline aria-label={videoWords.camera.picture} />
      <p className="small" role="status">
        {says.words}
        {waiting > 1 ? ` (${waiting})` : ''}
      </p>
    </div>
  );
}
