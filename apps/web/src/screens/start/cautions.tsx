import { protocolRegistry } from '@sthene/core';
import { startWords as t } from '../../words/start.ts';

/** The usual cautions of a maximal effort, as the mid-thigh pull states them. */
export function Cautions({ open = false }: { open?: boolean }) {
  const cautions = protocolRegistry.get('imtp')?.cautions ?? [];
  return (
    <details className="cautions" open={open}>
      <summary>{t.cautions.title}</summary>
      <ul>
        {cautions.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </details>
  );
}
