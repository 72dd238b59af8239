import { checkRegistry } from '../../checks/index.ts';
import { metricRegistry } from '../../metrics/index.ts';
import { onsetRegistry } from '../../onset/index.ts';
import { limitTitle } from '../../protocols/lab/titles.ts';

/** One number of a method that a lab may set. */
export interface MethodField {
  /** Path in the document, as in `window.baseline`. */
  readonly at: string;
  readonly title: string;
  /** UCUM code; `%` where the document holds a share of 1. */
  readonly unit: string;
  /** What it does, in a sentence. */
  readonly help: string;
}

/** Numbers of a method outside its checks, in the order of the document. */
export const methodFields: readonly MethodField[] = [
  {
    at: 'filter.cutoff',
    title: 'Low-pass filter',
    unit: 'Hz',
    help: 'Cut-off of a zero-lag Butterworth filter before everything else. Without it the force is taken as it came.',
  },
  {
    at: 'window.baseline',
    title: 'Quiet window',
    unit: 's',
    help: 'Length of the stand-still that gives baseline and its noise.',
  },
  {
    at: 'window.anchor',
    title: 'Window that finds the effort',
    unit: 's',
    help: 'The window with the largest mean force marks where the effort is.',
  },
  {
    at: 'window.search',
    title: 'Search for the quiet window',
    unit: 's',
    help: 'How long before the rise the quiet window may lie.',
  },
  {
    at: 'window.clearance',
    title: 'Distance from the rise',
    unit: 's',
    help: 'By how much the quiet window is moved away from the rise.',
  },
  {
    at: 'set.agreement',
    title: 'Agreement of the two best',
    unit: 'N',
    help: 'While the two highest peak forces differ by more, another pull is asked for.',
  },
  {
    at: 'set.agreementShare',
    title: 'Agreement as a share of the best',
    unit: '%',
    help: 'Takes the place of the newtons where it is given.',
  },
  {
    at: 'set.closesAfter',
    title: 'Maximal pulls that close a set',
    unit: '1',
    help: 'Rejected ones included.',
  },
  {
    at: 'allometricExponent',
    title: 'Exponent of body mass',
    unit: '1',
    help: 'For peak force scaled to body mass; 2/3 by geometry.',
  },
];

/** Title and unit of a check's limit; a limit that is a share is shown in per cent. */
export function limitField(check: string, limit: string): MethodField {
  const own = limit === 'warn' || limit === 'fail' ? (checkRegistry.get(check)?.unit ?? '1') : '1';
  const unit = /[Ss]hareOf/u.test(limit) ? '%' : own;
  return { at: `checks.${check}.limits.${limit}`, title: limitTitle(limit), unit, help: '' };
}

const summaries: Readonly<Record<string, string>> = {
  'mean-all': 'mean of all trials that count',
  'mean-best-two': 'mean of the two with the highest peak force',
  best: 'the best one',
};

/** What stands for a session, in words. */
export const summaryWords = (summary: string): string => summaries[summary] ?? summary;

/** What a place of a method is called. */
export function methodTitle(at: string): string {
  if (at === 'onset.rule') return 'Onset rule';
  if (at === 'onset.version') return 'Version of the onset rule';
  if (at === 'set.summary') return 'Value of a session';
  const [group, id = '', , limit] = at.split('.');
  if (group === 'checks') {
    const title = `Check: ${checkRegistry.get(id)?.title ?? id}`;
    return limit === undefined ? title : `${title}. ${limitTitle(limit)}`;
  }
  if (group === 'metrics') return `Metric: ${metricRegistry.get(id)?.title ?? id}`;
  return methodFields.find((field) => field.at === at)?.title ?? at;
}

/** The value at a place, in words. */
export function methodValue(at: string, value: number | string): string {
  if (at === 'onset.rule') return onsetRegistry.get(String(value))?.title ?? String(value);
  if (at === 'set.summary') return summaryWords(String(value));
  if (typeof value === 'string') return value;
  if (/^checks\.\w+$/u.test(at) || /^metrics\./u.test(at) || at === 'onset.version') return `version ${value}`;
  if (at === 'allometricExponent') return String(Number(value.toFixed(4)));
  const [, id = '', , limit = ''] = at.split('.');
  const { unit } = methodFields.find((field) => field.at === at) ?? limitField(id, limit);
  if (unit === '%') return `${Number((100 * value).toFixed(6))} %`;
  return unit === '1' ? String(value) : `${value} ${unit}`;
}
