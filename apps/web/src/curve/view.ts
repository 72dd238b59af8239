/** The visible stretch of the time axis, seconds. */
export interface View {
  readonly from: number;
  readonly to: number;
}

/** Shortest stretch that can be shown: ten samples. */
export const shortest = (sampleRate: number): number => 10 / sampleRate;

/** Keeps a view inside `whole` (its length first, then its place) and not shorter than `least`. */
export function clamped(view: View, whole: View, least: number): View {
  const full = whole.to - whole.from;
  const length = Math.min(full, Math.max(Math.min(least, full), view.to - view.from));
  const from = Math.min(Math.max(view.from, whole.from), whole.to - length);
  return { from, to: from + length };
}

/** Zooms by a factor (below 1 goes closer) about an instant that keeps its place on screen. */
export function zoomed(view: View, factor: number, about: number): View {
  return { from: about - (about - view.from) * factor, to: about + (view.to - about) * factor };
}

/** Moves a view by a share of its length. */
export function panned(view: View, share: number): View {
  const by = (view.to - view.from) * share;
  return { from: view.from + by, to: view.to + by };
}

/** Moves a view just far enough that an instant is inside, with some air. */
export function following(view: View, instant: number): View {
  const air = (view.to - view.from) * 0.1;
  if (instant < view.from) return { from: instant - air, to: instant - air + (view.to - view.from) };
  if (instant > view.to) return { from: instant + air - (view.to - view.from), to: instant + air };
  return view;
}
