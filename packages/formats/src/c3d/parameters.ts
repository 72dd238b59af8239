import { textOf } from './header.ts';
import { type NumberReader, numberReader, type Processor, viewOf } from './numbers.ts';

/** One parameter: its element type (-1 text, 1 byte, 2 integer, 4 float), dimensions and bytes, not yet interpreted. */
export interface Parameter {
  readonly type: number;
  readonly dimensions: readonly number[];
  readonly bytes: Uint8Array;
  readonly processor: Processor;
}

/** Parameters by `GROUP:NAME`, in the order of the file, names in upper case. */
export interface ParameterSection {
  readonly parameters: ReadonlyMap<string, Parameter>;
  /** Records whose offsets contradict their contents, or that reach past the section; they were left out. */
  readonly damaged: number;
}

interface Pending {
  readonly group: number;
  readonly name: string;
  readonly parameter: Parameter;
}

/** One parameter record's contents, or null when they do not fit into the bytes there are. */
function readParameter(section: Uint8Array, at: number, end: number, processor: Processor): Parameter | null {
  if (at + 2 > end) return null;
  const type = ((section[at] as number) << 24) >> 24;
  const count = section[at + 1] as number;
  if (![-1, 1, 2, 4].includes(type) || count > 7 || at + 2 + count > end) return null;
  const dimensions = [...section.subarray(at + 2, at + 2 + count)];
  const length = dimensions.reduce((product, size) => product * size, Math.abs(type));
  const start = at + 2 + count;
  if (start + length > end) return null;
  return { type, dimensions, bytes: section.subarray(start, start + length), processor };
}

/**
 * Reads the records of a parameter section.
 *
 * Follows each record's offset to the next one, as the standard demands, whatever the contents seem to need; a record that
 * does not fit between is counted as damaged and left out. Ends at an offset of 0, a name length of 0, an offset that does
 * not lead forward, or the end of the bytes. A parameter may precede its group.
 *
 * @param section bytes of the section, its four leading bytes included, bounded by the file's real length
 *
 * Source: C3D User Guide, parameter section (c3d.org).
 */
export function readParameters(section: Uint8Array, processor: Processor): ParameterSection {
  const read = numberReader(viewOf(section), processor);
  const groups = new Map<number, string>();
  const pending: Pending[] = [];
  let damaged = 0;
  let at = 4;
  while (at + 4 <= section.length) {
    const nameLength = Math.abs(((section[at] as number) << 24) >> 24);
    if (nameLength === 0) break;
    const offsetAt = at + 2 + nameLength;
    if (offsetAt + 2 > section.length) {
      damaged++;
      break;
    }
    const id = ((section[at + 1] as number) << 24) >> 24;
    const name = textOf(section.subarray(at + 2, offsetAt)).toUpperCase();
    const offset = read.int16(offsetAt);
    const next = offset > 0 ? offsetAt + offset : section.length;
    if (id < 0) {
      if (!groups.has(-id)) groups.set(-id, name);
    } else {
      const parameter = readParameter(section, offsetAt + 2, Math.min(next, section.length), processor);
      if (parameter === null) damaged++;
      else pending.push({ group: id, name, parameter });
    }
    if (offset < 0) damaged++;
    if (offset <= 0) break;
    at = next;
  }
  const parameters = new Map<string, Parameter>();
  for (const { group, name, parameter } of pending) {
    const key = `${groups.get(group) ?? `GROUP ${group}`}:${name}`;
    if (!parameters.has(key)) parameters.set(key, parameter);
  }
  return { parameters, damaged };
}

/** Numbers of a parameter in file order (first dimension fastest); integers as unsigned 16-bit if asked. Text gives none. */
export function numbersOf(parameter: Parameter | undefined, options: { readonly unsigned?: boolean } = {}): number[] {
  if (parameter === undefined) return [];
  const { type, bytes, processor } = parameter;
  if (type === 1) return [...bytes];
  if (type !== 2 && type !== 4) return [];
  const read: NumberReader = numberReader(viewOf(bytes), processor);
  const one = type === 4 ? read.float32 : options.unsigned === true ? read.uint16 : read.int16;
  return Array.from({ length: Math.floor(bytes.length / type) }, (_, i) => one(i * type));
}

/** Strings of a text parameter: `[w, n]` is n strings of w characters, `[w]` is one. Other types give none. */
export function stringsOf(parameter: Parameter | undefined): string[] {
  if (parameter === undefined || parameter.type !== -1) return [];
  const width = parameter.dimensions[0] ?? 1;
  if (width === 0) return [];
  return Array.from({ length: Math.floor(parameter.bytes.length / width) }, (_, i) =>
    textOf(parameter.bytes.subarray(i * width, (i + 1) * width)),
  );
}

/** `NAME`, then `NAME2`, `NAME3`, ... one after the other: how more than 255 entries are stored. */
export function continued<T>(
  parameters: ReadonlyMap<string, Parameter>,
  name: string,
  of: (parameter: Parameter) => readonly T[],
): T[] {
  const all: T[] = [];
  for (let part = 1; ; part++) {
    const parameter = parameters.get(part === 1 ? name : `${name}${part}`);
    if (parameter === undefined) return all;
    all.push(...of(parameter));
  }
}
