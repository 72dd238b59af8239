import { type ReactNode, useRef } from 'react';
import { useWidth } from './use-width.ts';

interface DrawnProps {
  /** px, or what a width in px asks for. */
  readonly height: number | ((width: number) => number);
  /** What it shows, for who cannot see it; absent where text or a table beside it says the same. */
  readonly label?: string;
  readonly className?: string;
  readonly children: (width: number, height: number) => ReactNode;
}

/** A figure as wide as its place, drawn once the width is known. */
export function Drawn({ height: asked, label, className, children }: DrawnProps) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const height = typeof asked === 'number' ? asked : asked(width);
  return (
    <div ref={host} className={className}>
      {width > 0 && (
        <svg
          width={width}
          height={height}
          viewBox={`0 0 ${width} ${height}`}
          role="img"
          aria-label={label}
          aria-hidden={label === undefined}
        >
          {children(width, height)}
        </svg>
      )}
    </div>
  );
}
