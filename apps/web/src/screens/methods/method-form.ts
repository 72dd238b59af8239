import {
  checkRegistry,
  limitField,
  type Method,
  type MethodDraft,
  type MethodField,
  methodFields,
  onsetRegistry,
} from '@sthene/core';

/** A method as somebody writes it: numbers as text, shares in per cent, a check that is not asked with its usual limits. */
export interface MethodForm {
  readonly name: string;
  readonly summary: string;
  readonly rule: string;
  readonly sessionValue: Method['set']['summary'];
  /** By path; '' where the method does without. */
  readonly numbers: Readonly<Record<string, string>>;
  readonly checks: Readonly<
    Record<string, { readonly use: boolean; readonly limits: Readonly<Record<string, string>> }>
  >;
}

/** Places that a method may do without. */
export const optional = new Set(['filter.cutoff', 'set.agreementShare']);

const shown = (value: number | undefined, { unit }: Pick<MethodField, 'unit'>): string =>
  value === undefined ? '' : String(Number((unit === '%' ? 100 * value : value).toPrecision(12)));

function written(text: string, { unit }: Pick<MethodField, 'unit'>): number {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return Number.NaN;
  return unit === '%' ? Number((Number(plain) / 100).toPrecision(12)) : Number(plain);
}

const numberAt = (method: Method, at: string): number | undefined => {
  if (at === 'filter.cutoff') return method.filter?.cutoff;
  if (at === 'allometricExponent') return method.allometricExponent;
  const [group, name = ''] = at.split('.');
  return (method[group as 'window' | 'set'] as unknown as Record<string, number | undefined>)[name];
};

/** The form as a method stands. */
export function formOf(method: Method): MethodForm {
  return {
    name: method.name,
    summary: method.summary,
    rule: method.onset.rule,
    sessionValue: method.set.summary,
    numbers: Object.fromEntries(methodFields.map((field) => [field.at, shown(numberAt(method, field.at), field)])),
    checks: Object.fromEntries(
      checkRegistry.all.map(({ id, defaultLimits }) => {
        const limits = method.checks[id]?.limits ?? defaultLimits;
        const texts = Object.entries(limits).map(([limit, value]) => [limit, shown(value, limitField(id, limit))]);
        return [id, { use: method.checks[id] !== undefined, limits: Object.fromEntries(texts) }];
      }),
    ),
  };
}

/**
 * The draft a form stands for. What was not touched keeps every digit of the method it is made from; text that is no number stays in
 * it as NaN, which the schema of methods refuses with its place.
 */
export function draftOf(form: MethodForm, before: Method): MethodDraft {
  const untouched = formOf(before);
  const number = (at: string): number | undefined => {
    const text = form.numbers[at] ?? '';
    if (text === untouched.numbers[at]) return numberAt(before, at);
    if (text.trim() === '' && optional.has(at)) return undefined;
    return written(text, methodFields.find((field) => field.at === at) ?? { unit: '1' });
  };
  const cutoff = number('filter.cutoff');
  const share = number('set.agreementShare');
  const { filter: _, derivedFrom: __, ...rest } = before;
  return {
    ...rest,
    name: form.name,
    summary: form.summary,
    ...(cutoff === undefined ? {} : { filter: { kind: 'butterworth-zero-lag', cutoff } }),
    onset: { rule: form.rule, version: onsetRegistry.get(form.rule)?.version ?? 1 },
    window: {
      baseline: number('window.baseline') as number,
      anchor: number('window.anchor') as number,
      search: number('window.search') as number,
      clearance: number('window.clearance') as number,
    },
    checks: checksOf(form, before, untouched),
    set: {
      summary: form.sessionValue,
      agreement: number('set.agreement') as number,
      ...(share === undefined ? {} : { agreementShare: share }),
      closesAfter: number('set.closesAfter') as number,
    },
    allometricExponent: number('allometricExponent') as number,
  };
}

function checksOf(form: MethodForm, before: Method, untouched: MethodForm): Method['checks'] {
  const chosen = checkRegistry.all.flatMap(({ id, version, defaultLimits }) => {
    const one = form.checks[id];
    if (one === undefined || !one.use) return [];
    const were = before.checks[id]?.limits ?? defaultLimits;
    const limits = Object.entries(one.limits).map(([limit, text]) => [
      limit,
      text === untouched.checks[id]?.limits[limit] ? were[limit] : written(text, limitField(id, limit)),
    ]);
    return [[id, { version, limits: Object.fromEntries(limits) as Record<string, number> }] as const];
  });
  return Object.fromEntries(chosen);
}

export const isMethodForm = (value: unknown): value is MethodForm =>
  typeof value === 'object' && value !== null && 'numbers' in value && 'checks' in value && 'rule' in value;
