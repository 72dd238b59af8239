import { fontFamilies, type Mark, type Palette, type Scene, type Stroke } from './scene.ts';

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => escapes[sign] as string);
const round = (value: number) => String(Math.round(value * 100) / 100);
const quoted = (families: string) => families.replaceAll('"', "'");

/** Facts an SVG file carries beside the picture. */
export interface SvgFacts {
  readonly title: string;
  readonly description: string;
}

/** Writes a scene as a stand-alone SVG document: the same marks the canvas paints, in order. */
export function paintSvg(scene: Scene, palette: Palette, facts: SvgFacts): string {
  const clips = { count: 0 };
  const body = scene.marks.map((mark) => element(mark, palette, clips)).join('\n');
  const { width, height } = scene;
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${round(width)}" height="${round(height)}" viewBox="0 0 ${round(width)} ${round(height)}" role="img">
<title>${escaped(facts.title)}</title>
<desc>${escaped(facts.description)}</desc>
${body}
</svg>
`;
}

function element(mark: Mark, palette: Palette, clips: { count: number }): string {
  switch (mark.kind) {
    case 'lines': {
      let d = '';
      for (let i = 0; i + 3 < mark.at.length; i += 4) {
        const [x1, y1, x2, y2] = mark.at.slice(i, i + 4).map(round);
        d += `M${x1} ${y1}L${x2} ${y2}`;
      }
      return `<path d="${d}" fill="none"${stroked(mark.stroke, palette)}/>`;
    }
    case 'path': {
      if (mark.points.length < 4) return '';
      let d = '';
      for (let i = 0; i < mark.points.length; i += 2)
        d += `${i === 0 ? 'M' : 'L'}${round(mark.points[i] as number)} ${round(mark.points[i + 1] as number)}`;
      const opacity = mark.opacity === undefined ? '' : ` opacity="${mark.opacity}"`;
      return `<path d="${d}${mark.closed ? 'Z' : ''}" fill="${mark.fill ? palette[mark.fill] : 'none'}"${mark.stroke ? stroked(mark.stroke, palette) : ''}${opacity}/>`;
    }
    case 'rect': {
      const opacity = mark.opacity === undefined ? '' : ` opacity="${mark.opacity}"`;
      return `<rect x="${round(mark.x)}" y="${round(mark.y)}" width="${round(Math.max(0, mark.width))}" height="${round(Math.max(0, mark.height))}" fill="${mark.fill ? palette[mark.fill] : 'none'}"${mark.stroke ? stroked(mark.stroke, palette) : ''}${opacity}/>`;
    }
    case 'dot':
      return `<circle cx="${round(mark.x)}" cy="${round(mark.y)}" r="${round(mark.radius)}" fill="${palette[mark.fill]}"${stroked(mark.stroke, palette)}/>`;
    case 'text': {
      const at = `x="${round(mark.x)}" y="${round(mark.y)}" text-anchor="${mark.anchor}"`;
      const font = `font-family="${quoted(fontFamilies[mark.face])}" font-size="${mark.size}" font-weight="${mark.weight}"`;
      const halo = mark.halo
        ? ` stroke="${palette.paper}" stroke-width="3.5" stroke-linejoin="round" paint-order="stroke"`
        : '';
      return `<text ${at} ${font} fill="${palette[mark.ink]}"${halo}>${escaped(mark.text)}</text>`;
    }
    case 'shift': {
      const inner = mark.marks.map((one) => element(one, palette, clips)).join('\n');
      return `<g transform="translate(${round(mark.x)} ${round(mark.y)})">\n${inner}\n</g>`;
    }
    case 'clip': {
      clips.count += 1;
      const id = `clip-${clips.count}`;
      const inner = mark.marks.map((one) => element(one, palette, clips)).join('\n');
      return `<clipPath id="${id}"><rect x="${round(mark.x)}" y="${round(mark.y)}" width="${round(mark.width)}" height="${round(mark.height)}"/></clipPath>
<g clip-path="url(#${id})">
${inner}
</g>`;
    }
  }
}

function stroked(stroke: Stroke, palette: Palette): string {
  const dash = stroke.dash && stroke.dash.length > 0 ? ` stroke-dasharray="${stroke.dash.join(' ')}"` : '';
  return ` stroke="${palette[stroke.ink]}" stroke-width="${stroke.width}" stroke-linejoin="round"${dash}`;
}
