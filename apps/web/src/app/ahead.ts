import type { QueryClient } from '@tanstack/react-query';
import { curveQuery, trialQuery } from '../data/queries.ts';
import { labFrom } from './lab.ts';

/** Asks for what a trial's address will need while its screen is still loading: the curve is the largest answer of all. */
export function askAhead(client: QueryClient, path: string): void {
  const [, lab, id] = /^\/(\w+)\/trials\/([^/]+)$/.exec(path) ?? [];
  const known = labFrom(lab);
  if (known === undefined || id === undefined) return;
  void client.prefetchQuery(curveQuery(known, decodeURIComponent(id)));
  void client.prefetchQuery(trialQuery(known, decodeURIComponent(id)));
}
