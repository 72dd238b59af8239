import type { Day, DayEntry, DayForecast, RigView } from '@sthene/contract';
import { clockText, durationText } from '../../number/duration.ts';
import { dayWords as t } from '../../words/day.ts';

/**
 * The end of the day in one sentence, and what each step left out would save.
 * @param pace how many times as fast as life virtual plates play
 */
export function forecastWords(forecast: DayForecast, pace = 1): { end: string; savings: string[] } {
  if (forecast.effortsLeft === 0) return { end: t.forecast.over, savings: [] };
  return {
    end: t.forecast.end(
      clockText(sooner(forecast, pace)),
      durationText(forecast.secondsLeft / pace),
      forecast.effortsLeft,
    ),
    savings: forecast.savings.map(({ step, words, seconds }) =>
      t.forecast.saving(t.forecast.steps[step] ?? words, durationText(seconds / pace)),
    ),
  };
}

/** The end at another pace. */
const sooner = (forecast: DayForecast, pace: number): string => atPace(forecast, forecast.endsAt, pace);

/** An instant of the forecast at another pace: the station reckons with life's own. */
function atPace({ endsAt, secondsLeft }: DayForecast, instant: string, pace: number): string {
  const now = Date.parse(endsAt) - 1000 * secondsLeft;
  return new Date(now + (Date.parse(instant) - now) / pace).toISOString();
}

/** Heading of a heat, with the time it begins where nobody of it has begun. */
export function heatWords(heat: number, forecast: DayForecast | undefined, pace = 1): string {
  const begins = forecast?.heats?.find((one) => one.heat === heat);
  if (forecast === undefined || begins === undefined) return t.heats.heat(heat);
  return t.heats.begins(heat, clockText(atPace(forecast, begins.startsAt, pace)));
}

/** Seconds of rest left now, for a view that was received some time ago; virtual plates may rest faster. */
export const restLeft = (left: number, receivedAt: number, now: number, pace = 1): number =>
  left - (pace * Math.max(0, now - receivedAt)) / 1000;

/** How many people lines of a running order are about: somebody with several tests has several lines. */
export const peopleOf = (entries: readonly Pick<DayEntry, 'person'>[]): number =>
  new Set(entries.map(({ person }) => person.id)).size;

/** Who of a day could still do something. */
export const unfinished = (day: Day): DayEntry[] =>
  day.entries.filter(({ state, remaining }) => remaining.length > 0 && state !== 'done' && state !== 'left');

/** What should be looked at before a day is opened, one sentence each; empty when nothing is missing. */
export function beforeOpening(day: Day, rigs: readonly RigView[]): string[] {
  const mine = rigs.filter(({ id }) => day.rigs.includes(id));
  const unknown = day.rigs.length - mine.length;
  const blocked = peopleOf(day.entries.filter(({ allowed }) => allowed === 'nothing'));
  return [
    ...(day.rigs.length === 0 ? [t.open.noRig] : []),
    ...(unknown > 0 ? [t.open.rigUnknown(unknown)] : []),
    ...mine
      .filter(({ state }) => state === 'faulty' || state === 'lost' || state === 'quiet')
      .map(({ name, words }) => t.open.rigTrouble(name, words)),
    ...mine.filter(({ rate }) => rate.differs).map(({ name }) => t.open.rateDiffers(name)),
    ...mine.filter(({ disk }) => disk.warning).map(({ name }) => t.open.disk(name)),
    ...(day.entries.length === 0 ? [t.open.nobody] : []),
    ...(blocked > 0 ? [t.open.blocked(blocked)] : []),
  ];
}
