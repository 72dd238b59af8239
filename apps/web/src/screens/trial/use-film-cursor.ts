import type { VideoView } from '@sthene/contract';
import { type RefObject, useCallback, useEffect, useRef, useState } from 'react';
import type { CurveController } from '../../curve/controller.ts';
import { following } from '../../curve/view.ts';
import { filmTime, nearestFrame, playerTime, recordingTime, shownFrame } from './film-time.ts';

/**
 * One cursor for curve and film: where the cursor goes the film follows, where the film goes the cursor follows.
 *
 * @param rate of the recording, Hz
 * @param nudge s, as it stands on the screen
 */
export function useFilmCursor(
  player: RefObject<HTMLVideoElement | null>,
  film: VideoView,
  nudge: number,
  controller: CurveController,
  rate: number,
) {
  const [frame, setFrame] = useState(0);
  const [outside, setOutside] = useState(false);
  const [playing, setPlaying] = useState(false);
  // The player takes one seek at a time; what is asked for meanwhile replaces what was asked before.
  const wanted = useRef<number | undefined>(undefined);
  const fromFilm = useRef(false);
  // Where the cursor was when the film last looked: size and zoom change the curve as well, and must not stop a film that plays.
  const seen = useRef<number | undefined>(undefined);
  const shown = useRef(0);
  shown.current = frame;

  const show = useCallback(
    (next: number) => {
      const video = player.current;
      setFrame(next);
      if (video === null) return;
      if (video.seeking) wanted.current = next;
      else video.currentTime = playerTime(film, next);
    },
    [player, film],
  );

  /** Puts the cursor of the curve at a frame. */
  const point = useCallback(
    (next: number, follow: boolean) => {
      const at = recordingTime(film, nudge, film.frames[next] ?? 0);
      if (at === undefined) return;
      fromFilm.current = true;
      controller.setCursor(at * rate);
      seen.current = controller.state().overlay.cursor;
      if (follow) controller.setView(following(controller.state().view, at + controller.whole.from));
      fromFilm.current = false;
    },
    [film, nudge, controller, rate],
  );

  useEffect(() => {
    const goTo = (cursor: number | undefined) => {
      seen.current = cursor;
      if (cursor === undefined) return;
      player.current?.pause();
      const at = filmTime(film, nudge, cursor / rate);
      const next = at === undefined ? undefined : nearestFrame(film, at);
      setOutside(at !== undefined && next === undefined);
      if (next !== undefined && next !== shown.current) {
        shown.current = next;
        show(next);
      }
    };
    goTo(controller.state().overlay.cursor);
    return controller.subscribe(() => {
      const { cursor } = controller.state().overlay;
      if (!fromFilm.current && cursor !== seen.current) goTo(cursor);
    });
  }, [controller, film, nudge, rate, player, show]);

  useEffect(() => {
    const video = player.current;
    if (video === null) return;
    let handle = 0;
    const seeked = () => {
      const next = wanted.current;
      wanted.current = undefined;
      if (next !== undefined) video.currentTime = playerTime(film, next);
    };
    const look = () => {
      const next = shownFrame(film, video.currentTime);
      if (next === shown.current) return;
      shown.current = next;
      setFrame(next);
      setOutside(false);
      point(next, true);
    };
    const tick = () => {
      handle = requestAnimationFrame(tick);
      look();
    };
    const play = () => {
      setPlaying(true);
      handle = requestAnimationFrame(tick);
    };
    const pause = () => {
      setPlaying(false);
      cancelAnimationFrame(handle);
    };
    video.addEventListener('seeked', seeked);
    video.addEventListener('play', play);
    video.addEventListener('pause', pause);
    // The last frame may come when nobody looks any more.
    video.addEventListener('ended', look);
    return () => {
      cancelAnimationFrame(handle);
      video.removeEventListener('seeked', seeked);
      video.removeEventListener('play', play);
      video.removeEventListener('pause', pause);
      video.removeEventListener('ended', look);
    };
  }, [player, film, point]);

  const step = useCallback(
    (by: 1 | -1) => {
      player.current?.pause();
      const next = Math.min(film.frames.length - 1, Math.max(0, shown.current + by));
      shown.current = next;
      show(next);
      setOutside(false);
      point(next, true);
    },
    [player, film, show, point],
  );
  const toggle = useCallback(() => {
    const video = player.current;
    if (video === null) return;
    if (!video.paused) video.pause();
    else void video.play().catch(() => {});
  }, [player]);

  return { frame, outside, playing, step, toggle };
}
