import { followedRatios, type ReportKind } from '@sthene/contract';
import { metricFactsOf } from '@sthene/core';
import { batteryWords } from '../../words/battery.ts';

interface Offered {
  readonly id: string;
  readonly title: string;
}

/**
 * The values of a test a page can be made of, and the ratios it has a part in. A study of reliability follows single efforts, which have no
 * ratio.
 */
export function offeredMetrics(kind: ReportKind, test: string): readonly Offered[] {
  const own = metricFactsOf(test).map(({ id, title }) => ({ id, title }));
  if (kind === 'reliability') return own;
  const ratios = Object.keys(followedRatios) as (keyof typeof followedRatios)[];
  const ofTest = ratios.filter((id) => (followedRatios[id] as readonly string[]).includes(test));
  return [...own, ...ofTest.map((id) => ({ id, title: batteryWords.ratios[id].title }))];
}
