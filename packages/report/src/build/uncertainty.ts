import type { UncertaintyFacts } from '../input/uncertainty.ts';
import type { Block } from '../model/document.ts';
import { decimalsFor, unitText } from '../text/numbers.ts';
import type { Pen } from './frame.ts';

/** One line on how sure the headline value is and what that means; nothing where the station could not say. */
export function uncertaintyBlocks(found: UncertaintyFacts | undefined, pen: Pen): Block[] {
  const { words, numbers } = pen;
  if (found === undefined) return [];
  const w = words.uncertainty;
  const parts = found.unknown.map((id) => w.parts[id] ?? id);
  const said = [
    w.line(`\u202f${sizeOf(found, pen)}`, numbers.fixed(found.coverage, 0)),
    ...(parts.length === 0 ? [] : [w.unknown(parts.join(', '))]),
  ];
  return [{ kind: 'paragraph', text: said.join(' '), style: 'small' }];
}

/** At the precision of the value, unless that would be nothing. */
function sizeOf({ value, expanded, unit }: UncertaintyFacts, { numbers }: Pen): string {
  const decimals = decimalsFor(unit, value);
  if (Number(expanded.toFixed(decimals)) === 0) return numbers.quantity(expanded, unit);
  const said = numbers.fixed(expanded, decimals);
  return unitText(unit) === '' ? said : `${said}\u00a0${unitText(unit)}`;
}
