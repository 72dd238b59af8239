import { fontFamilies, type Mark, type Measure, type Palette, type Scene, type Stroke } from './scene.ts';

/** The part of a 2D context the painter needs; on screen and off screen alike. */
export type Pen = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/** Paints a scene. The context's transform must already hold the pixel ratio. */
export function paintCanvas(pen: Pen, scene: Scene, palette: Palette, clear = true): void {
  if (clear) pen.clearRect(0, 0, scene.width, scene.height);
  for (const mark of scene.marks) paint(pen, mark, palette);
}

function paint(pen: Pen, mark: Mark, palette: Palette): void {
  switch (mark.kind) {
    case 'lines': {
      pen.beginPath();
      const { at } = mark;
      for (let i = 0; i + 3 < at.length; i += 4) {
        pen.moveTo(at[i] as number, at[i + 1] as number);
        pen.lineTo(at[i + 2] as number, at[i + 3] as number);
      }
      ink(pen, mark.stroke, palette);
      return;
    }
    case 'path': {
      const { points } = mark;
      if (points.length < 4) return;
      pen.beginPath();
      pen.moveTo(points[0] as number, points[1] as number);
      for (let i = 2; i < points.length; i += 2) pen.lineTo(points[i] as number, points[i + 1] as number);
      if (mark.closed) pen.closePath();
      pen.globalAlpha = mark.opacity ?? 1;
      if (mark.fill) {
        pen.fillStyle = palette[mark.fill];
        pen.fill();
      }
      // Rounding thousands of joins that lie within a pixel costs most of a frame and cannot be seen.
      if (mark.stroke) ink(pen, mark.stroke, palette, points.length > 2000 ? 'bevel' : 'round');
      pen.globalAlpha = 1;
      return;
    }
    case 'rect': {
      pen.globalAlpha = mark.opacity ?? 1;
      if (mark.fill) {
        pen.fillStyle = palette[mark.fill];
        pen.fillRect(mark.x, mark.y, mark.width, mark.height);
      }
      if (mark.stroke) {
        pen.beginPath();
        pen.rect(mark.x, mark.y, mark.width, mark.height);
        ink(pen, mark.stroke, palette);
      }
      pen.globalAlpha = 1;
      return;
    }
    case 'dot': {
      pen.beginPath();
      pen.arc(mark.x, mark.y, mark.radius, 0, 2 * Math.PI);
      pen.fillStyle = palette[mark.fill];
      pen.fill();
      ink(pen, mark.stroke, palette);
      return;
    }
    case 'text': {
      pen.font = `${mark.weight} ${mark.size}px ${fontFamilies[mark.face]}`;
      pen.textAlign = mark.anchor === 'middle' ? 'center' : mark.anchor;
      pen.textBaseline = 'alphabetic';
      if (mark.halo) {
        pen.lineWidth = 3.5;
        pen.lineJoin = 'round';
        pen.setLineDash([]);
        pen.strokeStyle = palette.paper;
        pen.strokeText(mark.text, mark.x, mark.y);
      }
      pen.fillStyle = palette[mark.ink];
      pen.fillText(mark.text, mark.x, mark.y);
      return;
    }
    case 'shift': {
      pen.save();
      pen.translate(mark.x, mark.y);
      for (const inner of mark.marks) paint(pen, inner, palette);
      pen.restore();
      return;
    }
    case 'clip': {
      pen.save();
      pen.beginPath();
      pen.rect(mark.x, mark.y, mark.width, mark.height);
      pen.clip();
      for (const inner of mark.marks) paint(pen, inner, palette);
      pen.restore();
    }
  }
}

function ink(pen: Pen, stroke: Stroke, palette: Palette, join: CanvasLineJoin = 'round'): void {
  pen.strokeStyle = palette[stroke.ink];
  pen.lineWidth = stroke.width;
  pen.lineJoin = join;
  pen.setLineDash((stroke.dash as number[] | undefined) ?? []);
  pen.stroke();
}

/** Measures text with a context, remembering what was asked: labels repeat from frame to frame. */
export function measureWith(pen: Pen): Measure {
  const known = new Map<string, number>();
  return (text, size, weight, face) => {
    const key = `${face}${weight}${size}${text}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    pen.font = `${weight} ${size}px ${fontFamilies[face]}`;
    const { width } = pen.measureText(text);
    if (known.size > 4000) known.clear();
    known.set(key, width);
    return width;
  };
}
