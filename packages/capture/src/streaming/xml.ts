import { longestInfo } from './protocol.ts';
import { type ReadStream, read, refuse } from './stream-fault.ts';

/** An element with the text that stands in it and the elements inside it. Attributes carry nothing in a stream info. */
export interface XmlElement {
  readonly name: string;
  readonly text: string;
  readonly children: readonly XmlElement[];
}

const deepest = 32;
const mostElements = 20_000;

const name = '[A-Za-z_][\\w.:-]*';
const opening = new RegExp(`<(${name})((?:\\s+${name}\\s*=\\s*(?:"[^"<]*"|'[^'<]*'))*)\\s*(/?)>`, 'uy');
const closing = new RegExp(`</(${name})\\s*>`, 'uy');

interface Open {
  readonly name: string;
  text: string;
  readonly children: XmlElement[];
}

/**
 * Reads the XML of a stream info: elements, text, the five entities and numbered characters, CDATA; comments, processing instructions and
 * attributes are passed over. A document type is refused, so that nothing can be defined that grows when it is read. Bounds: 1 MiB,
 * 32 deep, 20 000 elements; the time is proportional to the length.
 *
 * Source: W3C Extensible Markup Language 1.0, the part of it a stream info uses.
 */
export function readXml(xml: string): ReadStream<XmlElement> {
  const bad = (words: string) => refuse('stream-xml-unreadable', words);
  if (xml.length > longestInfo) return refuse('stream-message-too-long', `The XML has ${xml.length} characters.`);
  const stack: Open[] = [{ name: '', text: '', children: [] }];
  const top = (): Open => stack[stack.length - 1] as Open;
  let elements = 0;
  let at = xml.startsWith('\uFEFF') ? 1 : 0;
  /** Position after `end`, which is sought from `from`; undefined when it never comes. */
  const after = (end: string, from: number): number | undefined => {
    const found = xml.indexOf(end, from);
    return found < 0 ? undefined : found + end.length;
  };
  while (at < xml.length) {
    const tag = xml.indexOf('<', at);
    const text = plain(xml.slice(at, tag < 0 ? xml.length : tag));
    if (text === undefined) return bad('It holds an entity that is not known.');
    if (stack.length > 1) top().text += text;
    else if (text.trim() !== '') return bad('Text stands outside the root.');
    if (tag < 0) break;
    const passed = xml.startsWith('<!--', tag)
      ? after('-->', tag + 4)
      : xml.startsWith('<?', tag)
        ? after('?>', tag + 2)
        : -1;
    if (passed === undefined) return bad('A comment or instruction does not end.');
    if (passed >= 0) {
      at = passed;
      continue;
    }
    if (xml.startsWith('<![CDATA[', tag)) {
      const end = after(']]>', tag + 9);
      if (end === undefined || stack.length === 1)
        return bad('A piece of text does not end, or stands outside the root.');
      top().text += xml.slice(tag + 9, end - 3);
      at = end;
      continue;
    }
    closing.lastIndex = tag;
    const closed = closing.exec(xml);
    if (closed !== null) {
      const one = stack.pop() as Open;
      if (stack.length === 0 || one.name !== closed[1]) return bad(`</${closed[1]}> closes nothing that is open.`);
      top().children.push(one);
      at = closing.lastIndex;
      continue;
    }
    opening.lastIndex = tag;
    const opened = opening.exec(xml);
    if (opened === null) return bad('A tag is not well-formed, or is one that no stream info needs.');
    if (stack.length === 1 && top().children.length > 0) return bad('There is more than one root.');
    if (++elements > mostElements || stack.length > deepest) return bad('It is too deep, or has too many elements.');
    const one: Open = { name: opened[1] as string, text: '', children: [] };
    if (opened[3] === '/') top().children.push(one);
    else stack.push(one);
    at = opening.lastIndex;
  }
  const [root] = top().children;
  if (stack.length !== 1 || root === undefined) return bad('It ends before its root does.');
  return read(root);
}

const entities: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

/** Text with its entities replaced; undefined for one that is not known or names no character. */
function plain(text: string): string | undefined {
  if (!text.includes('&')) return text;
  let known = true;
  const replaced = text.replaceAll(
    /&(?:#x([0-9a-f]{1,6})|#([0-9]{1,7})|([a-z]{1,8}));|&/giu,
    (_, hex, decimal, word) => {
      const code = hex === undefined ? Number.parseInt(decimal, 10) : Number.parseInt(hex, 16);
      const found = word === undefined ? characterOf(code) : entities[word as string];
      if (found === undefined) known = false;
      return found ?? '';
    },
  );
  return known ? replaced : undefined;
}

const characterOf = (code: number): string | undefined =>
  code > 0 && code <= 0x10_ff_ff && !(code >= 0xd8_00 && code <= 0xdf_ff) ? String.fromCodePoint(code) : undefined;

/** An element to write: text, or elements inside. */
export type XmlToWrite = readonly [name: string, inside: string | readonly XmlToWrite[]];

/** Writes XML with its declaration; characters that XML 1.0 does not know are left out. */
export const writeXml = (root: XmlToWrite): string => `<?xml version="1.0"?>\n${written(root)}\n`;

function written([element, inside]: XmlToWrite): string {
  const content = typeof inside === 'string' ? escaped(inside) : inside.map(written).join('');
  return content === '' ? `<${element}/>` : `<${element}>${content}</${element}>`;
}

const escaped = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters XML does not know
    .replaceAll(/[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;');

/** The first child of this name. */
export const childOf = (element: XmlElement | undefined, child: string): XmlElement | undefined =>
  element?.children.find((one) => one.name === child);
