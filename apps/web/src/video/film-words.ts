import { videoWords as words } from '../words/video.ts';
import type { FilmState } from './film-store.ts';

/** What the camera does or waits for, in one sentence, and how it is meant. */
export interface FilmSays {
  readonly tone: 'film' | 'calm' | 'look';
  readonly words: string;
  readonly next?: string;
}

/** The one thing that matters now: what keeps it from filming first, then what it is doing. */
export function filmSays({ camera, link, rig, floor, under, dayOpen }: FilmState): FilmSays {
  const { state } = words.camera;
  if (camera !== 'ready' && camera !== 'asking' && camera !== 'off')
    return { tone: 'look', words: state[camera].words, next: state[camera].next };
  if (under !== undefined)
    return {
      tone: 'film',
      words: link === 'open' ? state.filming : state.filmingAlone,
    };
  if (camera !== 'ready') return { tone: 'calm', words: state.asking.words, next: state.asking.next };
  if (link === 'lost') return { tone: 'look', words: state.station.words, next: state.station.next };
  if (link === 'other-version') return { tone: 'look', words: state.version.words, next: state.version.next };
  if (link === 'opening') return { tone: 'calm', words: state.connecting };
  if (rig === undefined) return { tone: 'look', words: state.noRig.words, next: state.noRig.next };
  if (floor?.turn === undefined) {
    if (rig.state === 'closed') return { tone: 'calm', words: state.rigClosed(rig.letter), next: state.begins };
    return { tone: 'calm', words: dayOpen === false ? state.noDay : state.nobody, next: state.begins };
  }
  if (floor.film?.allowed === false) return { tone: 'look', words: floor.film.words, next: state.notAllowed };
  return { tone: 'calm', words: state.waiting };
}
