/** Names of the months, January first. */
export const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];
const two = (value: number) => String(value).padStart(2, '0');

/** Day and time of an RFC 3339 instant on this machine's clock, in words that no locale turns round. */
export function whenText(instant: string, withTime = true): string {
  const at = new Date(instant);
  if (Number.isNaN(at.getTime())) return instant;
  const day = `${at.getDate()} ${months[at.getMonth()]} ${at.getFullYear()}`;
  return withTime ? `${day}, ${two(at.getHours())}:${two(at.getMinutes())}` : day;
}

/** An RFC 3339 date, for file names. */
export function dayText(instant: string): string {
  const at = new Date(instant);
  return Number.isNaN(at.getTime()) ? 'undated' : `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
