import './axes.css';

/** Edges of a plot's ground, px. */
export interface PlotEdges {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Tick {
  /** px along the axis. */
  readonly at: number;
  readonly text: string;
}

interface AxesProps {
  readonly edges: PlotEdges;
  readonly up: readonly Tick[];
  readonly along: readonly Tick[];
  /** Whether lines stand at the ticks below as well. */
  readonly upright?: boolean;
}

/** The paper of a plot, its lines and what is written at them. Bands that lie under everything are drawn before it, as `children`. */
export function Axes({
  edges,
  up,
  along,
  upright = true,
  children,
}: AxesProps & { readonly children?: React.ReactNode }) {
  const { left, right, top, bottom } = edges;
  return (
    <>
      <rect className="axes-ground" x={left} y={top} width={right - left} height={bottom - top} />
      {children}
      {up.map(({ at, text }) => (
        <g key={`${at} ${text}`}>
          <line className="axes-grid" x1={left} x2={right} y1={at} y2={at} />
          <text className="axes-tick" x={left - 8} y={at + 4} textAnchor="end">
            {text}
          </text>
        </g>
      ))}
      {along.map(({ at, text }) => (
        <g key={`${at} ${text}`}>
          {upright && <line className="axes-grid" x1={at} x2={at} y1={top} y2={bottom} />}
          <text className="axes-tick" x={at} y={bottom + 18} textAnchor="middle">
            {text}
          </text>
        </g>
      ))}
    </>
  );
}
