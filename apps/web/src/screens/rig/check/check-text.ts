import type { RigCheckResultView } from '@sthene/contract';
import { numberText, signedText } from '../../../number/format.ts';
import { rigCheckWords as t } from '../../../words/rig-check.ts';
import type { Standing } from '../ready-check.ts';

type Judged = RigCheckResultView['quantities'][number];

export const standingOfQuantity: Readonly<Record<Judged['standing'], Standing>> = {
  pass: 'good',
  look: 'look',
  fail: 'bad',
  'not-judged': 'open',
};

export const standingOfVerdict: Readonly<Record<RigCheckResultView['verdict'], Standing>> = {
  passes: 'good',
  look: 'look',
  fails: 'bad',
  incomplete: 'open',
};

/** Signs matter where an error has a direction. */
const signed: ReadonlySet<string> = new Set([
  'gain',
  'offset',
  'relative-error',
  'small-load-error',
  'zero-return',
  'zero-drift',
  'cell',
]);

export function foundText({ id, value, limit }: Judged): string {
  const decimals = limit.unit === 'Hz' ? 0 : 2;
  // Of what the per cent are stands once, at the limit.
  const unit = limit.unit.replace(/^% of .*/u, '%');
  return `${signed.has(id) ? signedText(value, decimals) : numberText(value, decimals)}\u00a0${unit}`;
}

export function limitText({ limit: { value, unit, good } }: Judged): string {
  const text = `${numberText(value, unit === 'Hz' ? 0 : 2)}\u00a0${unit}`;
  return good === 'at-most' ? t.result.atMost(text) : t.result.atLeast(text);
}

export const newtonText = (value: number): string => `${numberText(value, 1)}\u00a0N`;

/** What is lacking, in one sentence. */
export function shortfallText({ code, plate, got = 0, wanted = 0 }: RigCheckResultView['shortfalls'][number]): string {
  const said = t.shortfalls[code](got, wanted);
  return plate === undefined ? said : `${t.plate(plate)}: ${said}`;
}
