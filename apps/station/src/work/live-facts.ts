import type { OpenLab } from '../labs/open-lab.ts';
import type { OriginFacts } from '../live/rig/keep-trial.ts';

/** What a live trial was judged with besides its samples; undefined for an imported one. */
export async function liveFactsOf(lab: OpenLab, trial: string): Promise<OriginFacts | undefined> {
  return (await lab.store.origins.ofTrial(trial))?.facts as OriginFacts | undefined;
}
