import { endingOf, standsAlone, unitInHeader, unitOfEnding } from './unit-names.ts';

/** A column name and the unit found with it. */
export interface HeaderCell {
  readonly name: string;
  /** UCUM code, '' where none is named. */
  readonly unit: string;
  /** Words in unit brackets that are no known unit; they stay part of the name. */
  readonly unknownUnit?: string;
}

const GUARDED = /^'+[=+\-@\t\r\n]/;
const NEEDS_GUARD = /^'*[=+\-@\t\r\n]/;

/** A text cell that a spreadsheet would run as a formula gets an apostrophe; numbers never pass here. */
export const guardText = (text: string): string => (NEEDS_GUARD.test(text) ? `'${text}` : text);

/** Undoes {@link guardText}. */
export const unguardText = (text: string): string => (GUARDED.test(text) ? text.slice(1) : text);

/**
 * Name and unit of a header cell: `Fz [N]`, `Force (kN)`, `Fz/N`, `Fz, N`, `time_ms`, `left_n`; `Fz []` says "no unit".
 * A lone unit (`N`) names the column and gives its unit. Unknown words in brackets stay in the name.
 */
export function parseHeaderCell(cell: string): HeaderCell {
  const text = unguardText(cell.trim()).trim();
  const bracketed = inBrackets(text);
  if (bracketed !== undefined) {
    const { before, inside, square } = bracketed;
    if (inside === '' && square) return { name: before, unit: '' };
    const unit = unitInHeader(inside, square);
    if (unit !== undefined && before !== '') return { name: before, unit };
    if (unit === undefined) return { name: text, unit: '', unknownUnit: inside };
  }
  const ending = /^(.*[^_])_([A-Za-z]+)$/s.exec(text);
  const byEnding = ending === null ? undefined : unitOfEnding(ending[2]!);
  if (ending !== null && byEnding !== undefined) return { name: ending[1]!, unit: byEnding };
  const apart = /^(.*[^\s/,;])\s*[/,;]\s*([^\s/,;]+)$/s.exec(text);
  const behind = apart === null ? undefined : unitInHeader(apart[2]!, false);
  if (apart !== null && behind !== undefined) return { name: apart[1]!, unit: behind };
  const alone = unitInHeader(text, false);
  return { name: text, unit: alone !== undefined && standsAlone(alone) ? alone : '' };
}

/** The last bracket group of a text that ends in one; brackets inside must balance, so `F [[lbf_av]]` works. */
function inBrackets(text: string): { before: string; inside: string; square: boolean } | undefined {
  const close = text.at(-1);
  const open = close === ']' ? '[' : close === ')' ? '(' : undefined;
  if (open === undefined) return undefined;
  let depth = 0;
  for (let i = text.length - 1; i >= 0; i--) {
    if (text[i] === close) depth++;
    if (text[i] === open && --depth === 0) {
      return { before: text.slice(0, i).trim(), inside: text.slice(i + 1, -1).trim(), square: open === '[' };
    }
  }
  return undefined;
}

/**
 * The header cell our own files use: `left_n` where the unit has an ending, else `left [unit]`, chosen so that reading it
 * gives exactly the same name and unit. Not yet quoted.
 */
export function headerCell(name: string, unit: string): string {
  const ending = endingOf(unit);
  const forms = [
    ...(ending === undefined ? [] : [`${name}_${ending}`]),
    ...(unit === '' ? [name] : []),
    `${name} [${unit}]`,
  ];
  const same = (form: string) => {
    const back = parseHeaderCell(guardText(form));
    return back.name === name && back.unit === unit;
  };
  return guardText(forms.find(same) ?? forms.at(-1)!);
}
