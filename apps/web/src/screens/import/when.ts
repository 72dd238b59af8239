import type { Item } from './state.ts';

const two = (value: number) => String(value).padStart(2, '0');

/** Local date and time as a `datetime-local` field holds it. */
export function fieldTime(at: Date): string {
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** When a file was recorded: as the recording says, else the date of the file. */
export function ownTime({ look, file }: Pick<Item, 'look' | 'file'>): { at: Date; from: 'file' | 'file-date' } {
  const recorded = look?.recording?.recordedAt;
  if (recorded !== undefined && !Number.isNaN(Date.parse(recorded))) return { at: new Date(recorded), from: 'file' };
  return { at: new Date(file.lastModified), from: 'file-date' };
}

/** An instant from the field; undefined when it holds none. */
export function instantIn(field: string): string | undefined {
  const at = new Date(field);
  return field === '' || Number.isNaN(at.getTime()) ? undefined : at.toISOString();
}

/** Same day on this machine's clock. */
export const sameDay = (a: string, b: string): boolean =>
  fieldTime(new Date(a)).slice(0, 10) === fieldTime(new Date(b)).slice(0, 10);
