/** A drawn figure: SVG with its own sizes in points, attributes only, no style sheet and no script. */
export interface Figure {
  /** Short name for a file. */
  readonly id: string;
  readonly caption: string;
  /** The same in words, for whoever does not see it. */
  readonly alt: string;
  readonly width: number;
  readonly height: number;
  readonly svg: string;
}
