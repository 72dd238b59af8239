/** Roles of colour. A palette gives each its colour; a scene never names a colour. */
export const inks = [
  'paper',
  'panel',
  'grid',
  'grid-strong',
  'ink',
  'ink-soft',
  'line',
  'line-strong',
  'pen',
  'left',
  'right',
  'counts',
  'look',
  'repeat',
  'band',
  'band-pen',
  'other-1',
  'other-2',
  'other-3',
  'focus',
] as const;
export type Ink = (typeof inks)[number];
export type Palette = Readonly<Record<Ink, string>>;

export interface Stroke {
  readonly ink: Ink;
  readonly width: number;
  readonly dash?: readonly number[];
}

/** What a painter can draw. Pixels, y downward. */
export type Mark =
  | { readonly kind: 'lines'; readonly at: readonly number[]; readonly stroke: Stroke }
  | {
      readonly kind: 'path';
      readonly points: readonly number[];
      readonly closed?: boolean;
      readonly stroke?: Stroke;
      readonly fill?: Ink;
      readonly opacity?: number;
    }
  | {
      readonly kind: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly fill?: Ink;
      readonly stroke?: Stroke;
      readonly opacity?: number;
    }
  | {
      readonly kind: 'dot';
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly fill: Ink;
      readonly stroke: Stroke;
    }
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number;
      readonly text: string;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly ink: Ink;
      readonly size: number;
      readonly weight: number;
      readonly face: 'sans' | 'mono';
      /** Draws a rim of ground colour so that the text stays legible over lines. */
      readonly halo?: boolean;
    }
  | { readonly kind: 'shift'; readonly x: number; readonly y: number; readonly marks: readonly Mark[] }
  | {
      readonly kind: 'clip';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly marks: readonly Mark[];
    };

/** A finished picture, independent of what paints it. */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly marks: readonly Mark[];
}

/** Width of a text in pixels. */
export type Measure = (text: string, size: number, weight: number, face: 'sans' | 'mono') => number;

/** Width by an average advance, where no fonts can be asked (tests, workers). */
export const roughMeasure: Measure = (text, size, _weight, face) => text.length * size * (face === 'mono' ? 0.6 : 0.54);

export const fontFamilies = {
  sans: '"Atkinson Hyperlegible Next Variable", "Atkinson Hyperlegible Next", "Atkinson Hyperlegible", Arial, sans-serif',
  mono: '"Atkinson Hyperlegible Mono Variable", "Atkinson Hyperlegible Mono", "DejaVu Sans Mono", monospace',
} as const;
