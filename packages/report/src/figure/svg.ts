type Attributes = Readonly<Record<string, string | number | undefined>>;

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text as it may stand in SVG and HTML. Characters that XML 1.0 has no place for are left out. */
export const escaped = (text: string): string =>
  text
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML 1.0 forbids
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/gu, '')
    .replace(/[&<>"]/g, (sign) => escapes[sign] as string);

/** Numbers of a drawing: hundredths of a point are finer than any printer. */
const place = (value: string | number): string =>
  typeof value === 'number' ? String(Number(value.toFixed(2))) : value;

function element(name: string, attributes: Attributes, content = ''): string {
  const said = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}="${escaped(place(value))}"`],
  );
  return content === '' ? `<${name}${said.join('')}/>` : `<${name}${said.join('')}>${content}</${name}>`;
}

export const line = (x1: number, y1: number, x2: number, y2: number, more: Attributes): string =>
  element('line', { x1, y1, x2, y2, ...more });
export const rect = (x: number, y: number, width: number, height: number, more: Attributes): string =>
  element('rect', { x, y, width: Math.max(0, width), height: Math.max(0, height), ...more });
export const circle = (cx: number, cy: number, r: number, more: Attributes): string =>
  element('circle', { cx, cy, r, ...more });
export const polyline = (points: readonly (readonly [number, number])[], more: Attributes): string =>
  element('polyline', { points: points.map(([x, y]) => `${place(x)},${place(y)}`).join(' '), fill: 'none', ...more });
export const label = (x: number, y: number, text: string, more: Attributes = {}): string =>
  element('text', { x, y, 'font-size': 8, fill: ink, ...more }, escaped(text));

export const ink = '#1b1b1b';
export const soft = '#5c5c5c';
export const grid = '#d4d4d4';
export const band = '#dedede';
/** Of what is newest; in grey it prints as dark as ink. */
export const accent = '#0b4f6c';

/** A whole figure of so many points; the font is the one that is embedded in the PDF, with usual ones after it. */
export const svg = (width: number, height: number, alt: string, content: readonly string[]): string =>
  element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'font-family': "'DejaVu Sans Condensed', 'DejaVu Sans', Verdana, sans-serif",
    },
    `${element('title', {}, escaped(alt))}${content.join('')}`,
  );
