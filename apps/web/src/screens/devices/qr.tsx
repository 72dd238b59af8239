import { useMemo } from 'react';
import { qrPath } from './qr-path.ts';

/** A code to scan, dark on light in every theme: many readers cannot read the other way round. */
export function Qr({ text, label }: { text: string; label: string }) {
  const { size, path } = useMemo(() => qrPath(text), [text]);
  return (
    <svg className="qr" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shapeRendering="crispEdges">
      <rect className="qr-light" width={size} height={size} />
      <path className="qr-dark" d={path} />
    </svg>
  );
}
