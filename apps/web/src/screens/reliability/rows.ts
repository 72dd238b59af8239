import type { ReliabilityFound, ReliabilityView } from '@sthene/contract';
import { numberText } from '../../number/format.ts';
import { reliabilityWords as t } from '../../words/reliability.ts';
import { scaleText, valueText } from '../athletes/values.ts';

/** One line of the table: what, how much, how sure, and what it says. */
export interface StudyRow {
  readonly what: string;
  readonly value: string;
  readonly interval: string;
  readonly says: string;
}

const between = (low: string, high: string) => `${low} to ${high}`;
const r = (value: number) => numberText(value, 3);

/** Bands of Koo & Li 2016 for one end of an interval. */
const bandOf = (value: number): string =>
  value < 0.5 ? 'poor' : value < 0.75 ? 'moderate' : value <= 0.9 ? 'good' : 'excellent';

/** The study as lines, in the order a paper prints them. */
export function studyRows(study: ReliabilityFound, view: ReliabilityView): readonly StudyRow[] {
  const text = (value: number) => scaleText(value, view);
  const { interval } = study.error;
  return [
    {
      what: t.error,
      value: text(study.error.value),
      interval: between(text(interval.low), text(interval.high)),
      says: t.errorSays,
    },
    ...(study.all?.ok
      ? [
          {
            what: t.all,
            value: text(study.all.value.error.value),
            interval: between(text(study.all.value.interval.low), text(study.all.value.interval.high)),
            says: t.allSays(r(study.all.value.icc)),
          },
        ]
      : []),
    { what: t.detectable95, value: detectable(study.detectable['95'], view), interval: '', says: t.detectableSays },
    { what: t.detectable90, value: detectable(study.detectable['90'], view), interval: '', says: '' },
    {
      what: t.worthwhile,
      value: study.worthwhile.ok ? text(study.worthwhile.value) : t.undefinedHere,
      interval: '',
      says: [t.worthwhileSays, study.usefulness === undefined ? '' : t.useful[study.usefulness]].join(' ').trim(),
    },
    ...Object.entries(study.correlations).map(([form, one]) => ({
      what: `ICC(${form})`,
      value: one.ok ? r(one.value.value) : t.undefinedHere,
      interval: one.ok ? between(r(one.value.low), r(one.value.high)) : '',
      says: `${one.ok ? `${t.bands(bandOf(one.value.low), bandOf(one.value.high))}: ` : ''}${t.forms[form] ?? ''}`,
    })),
  ];
}

/** Up and down differ in per cent. */
function detectable(change: number, { scale, metric }: ReliabilityView): string {
  if (scale === 'unit') return valueText(change, metric.unit);
  const percent = (value: number) => numberText(100 * Math.expm1(value / 100), 1);
  return `+${percent(change)}\u00a0%, ${percent(-change)}\u00a0%`;
}

/** Tab-separated, so that it pastes into a spreadsheet and a word processor. */
export const asTable = (rows: readonly StudyRow[], title: string): string =>
  [
    title,
    [t.head.what, t.head.value, t.head.interval, t.head.says].join('\t'),
    ...rows.map(({ what, value, interval, says }) => [what, value, interval, says].join('\t')),
  ].join('\n');
