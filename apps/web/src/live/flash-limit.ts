/** Between the beginnings of two flashes, ms: at most two a second, where three are the limit. */
const apart = 500;

/**
 * Says whether a flash may begin now. The cue itself is never left out: it takes the place of what is shown.
 *
 * @source WCAG 2.2, success criterion 2.3.1: nothing flashes more than three times in any one second
 */
export function flashLimit(): (now: number, cue: boolean) => boolean {
  let last = Number.NEGATIVE_INFINITY;
  return (now, cue) => {
    if (!cue && now - last < apart) return false;
    last = now;
    return true;
  };
}
