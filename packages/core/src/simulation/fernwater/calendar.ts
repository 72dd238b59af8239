import type { UtcInstant } from '../../recording/sample.ts';

/** Test days of three seasons; the first season opens day 0. */
export const fernwaterDays: readonly { readonly season: string; readonly date: string }[] = [
  { season: '2023/24', date: '2023-10-14' },
  { season: '2023/24', date: '2024-01-20' },
  { season: '2023/24', date: '2024-03-23' },
  { season: '2024/25', date: '2024-10-12' },
  { season: '2024/25', date: '2025-01-18' },
  { season: '2024/25', date: '2025-03-29' },
  { season: '2025/26', date: '2025-10-11' },
  { season: '2025/26', date: '2026-01-17' },
  { season: '2025/26', date: '2026-03-28' },
];

/** An instant of a test day, minutes after 08:00 UTC. */
export function instantOf(day: number, minutes: number): UtcInstant {
  const start = Date.parse(`${fernwaterDays[day]!.date}T08:00:00.000Z`);
  return new Date(start + Math.floor(minutes * 60_000)).toISOString() as UtcInstant;
}

/** Years from the first test day. */
export function yearsTo(day: number): number {
  const span = Date.parse(fernwaterDays[day]!.date) - Date.parse(fernwaterDays[0]!.date);
  return span / (365.25 * 86_400_000);
}
