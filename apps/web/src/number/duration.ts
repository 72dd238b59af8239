/** A length of time as people say it: seconds under two minutes, then minutes, then hours and minutes. */
export function durationText(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  if (whole < 120) return `${whole}\u00a0s`;
  const minutes = Math.round(whole / 60);
  if (minutes < 120) return `${minutes}\u00a0min`;
  const hours = Math.floor(minutes / 60);
  if (hours >= 48) return `${Math.round(hours / 24)}\u00a0days`;
  const rest = minutes % 60;
  return rest === 0 ? `${hours}\u00a0h` : `${hours}\u00a0h ${rest}\u00a0min`;
}

/** A countdown as m:ss; below zero it stands at 0:00. */
export function countdownText(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds - 1e-9));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** Time of day of an instant on this machine's clock. */
export function clockText(instant: string): string {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) return instant;
  return `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
}
