import { parseUnit } from '@sthene/core';
import { parseHeaderCell } from '../text/header-cell.ts';
import type { ColumnRole, SoleRole, ValueOf } from './mapping.ts';
import { metricNamed } from './metric-names.ts';
import { plainWords } from './plain-words.ts';

/** Headings of the columns that say whom, when and what (common practice). */
const names: Readonly<Record<SoleRole, RegExp>> = {
  code: /^((athlete|player|subject|participant|person|squad) )?(code|id|no|number|identifier)$/,
  name: /^((athlete|player|subject|participant|person|full) )?name( of athlete)?$|^(athlete|player|subject|participant|rower|who|person)$/,
  'given-name': /^(first|given|fore) ?names?$/,
  'family-name': /^(last|family|sur) ?names?$/,
  'birth-date': /^(date of birth|birth ?date|birth ?day|dob|born)$/,
  sex: /^(sex|gender)$/,
  date: /^((test|testing|session|trial) )?(date|day)( of test(ing)?)?$|^(when|tested|tested on|date time|datetime|started at)$/,
  time: /^(time of day|(start|test|session) time|clock)$/,
  test: /^(test|test (name|type)|exercise|protocol)$/,
  trial: /^(trial|rep|repetition|attempt|effort|trial (no|number)|rep (no|number))$/,
  of: /^(of|statistic|summary|aggregate)$/,
  method: /^(method|analysis|method label|analysed (by|with))$/,
  metric: /^(metric|measure|variable|parameter|result|outcome)( name)?$/,
  value: /^(value|score|result value)$/,
  unit: /^units?$/,
};

/** What a heading says of one column: its role, and what it could not place. */
export interface HeadingSays {
  readonly role: ColumnRole;
  /** The heading without its unit. */
  readonly name: string;
  /** UCUM code in the heading, '' for none. */
  readonly unit: string;
}

/** Proposes what a column is, by its heading and a unit written beneath it. */
export function roleOfHeading(heading: string, unitBeneath = ''): HeadingSays {
  const { name, unit: written } = parseHeaderCell(heading);
  const unit = written !== '' ? written : (parseUnit(unitBeneath)?.code ?? '');
  const words = plainWords(name);
  for (const [as, pattern] of Object.entries(names)) {
    if (pattern.test(words)) return { role: { as: as as SoleRole }, name, unit };
  }
  // A heading that names a metric as it stands says no more: the `t 10` of `Force at 100 ms` is no trial.
  const whole = metricNamed(name, unit);
  const { rest, trial, of }: Place = whole === undefined ? placeOf(name) : { rest: name };
  const metric = whole ?? metricNamed(rest, unit);
  if (metric === undefined) return { role: { as: 'ignore' }, name, unit };
  return {
    role: {
      as: 'values',
      metric,
      unit,
      ...(trial === undefined ? {} : { trial }),
      ...(of === undefined ? {} : { of }),
    },
    name,
    unit,
  };
}

/** Takes `trial 2`, `#2`, `mean`, `best` out of a heading. */
interface Place {
  readonly rest: string;
  readonly trial?: number;
  readonly of?: ValueOf;
}

function placeOf(name: string): Place {
  const numbered =
    /^(.*?)[\s,_-]*(?:\(?\b(?:trial|rep|attempt|pull)\s*#?\s*(\d{1,2})\b\)?|#\s*(\d{1,2})\b)\s*(.*)$/i.exec(name);
  if (numbered && (numbered[1] || numbered[4]))
    return { rest: `${numbered[1]} ${numbered[4]}`.trim(), trial: Number(numbered[2] ?? numbered[3]), of: 'trial' };
  const mean = /\b(mean|average|avg)\b/i;
  if (mean.test(name)) return { rest: name.replace(mean, ' ').trim(), of: 'mean' };
  const best = /\bbest\b/i;
  if (best.test(name)) return { rest: name.replace(best, ' ').trim(), of: 'best' };
  return { rest: name };
}

/** What a cell of an `of` column says. */
export function valueOfText(text: string): ValueOf | undefined {
  const words = plainWords(text);
  if (/^(trial|rep|single|attempt)$/.test(words)) return 'trial';
  if (/^(mean|average|avg)$/.test(words)) return 'mean';
  if (/^(best|max|maximum|top)$/.test(words)) return 'best';
  return words === '' || words === 'unknown' ? 'unknown' : undefined;
}
