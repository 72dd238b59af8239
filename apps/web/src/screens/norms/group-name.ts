import type { PublishedGroupView, PublishedRangeView } from '@sthene/contract';
import { publishedWords as t } from '../../words/published.ts';

/** Whom a published value is of, in one line: "Rugby union, academy, under 18, sex not said". */
export function groupName({ population, level, age, sex }: PublishedGroupView | PublishedRangeView): string {
  const name = [population, level, age, t.sex[sex]].filter(Boolean).join(', ');
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** How many people stand behind mean and SD, or that it is not known. */
export function peopleOf({ n, among }: PublishedGroupView): string {
  if (n !== undefined) return String(n);
  return among === undefined ? t.notKnown : t.among(among.people, among.groups);
}
