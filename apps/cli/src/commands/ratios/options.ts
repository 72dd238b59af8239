import { batteryQuery } from '@sthene/contract';
import { InvalidArgumentError } from 'commander';

/** A day of the calendar. */
export function day(text: string): string {
  if (!batteryQuery.shape.on.safeParse(text).success)
    throw new InvalidArgumentError('Give a day of the calendar as 2026-03-28.');
  return text;
}

/** Days between the tests of one ratio. */
export function wholeDays(text: string): number {
  const days = Number(text);
  if (text.trim() === '' || !batteryQuery.shape.apart.safeParse(days).success)
    throw new InvalidArgumentError('Give whole days from 0 to 120.');
  return days;
}
