import type { AnalysisRequest, Protocol } from '@sthene/core';
import type { Setup } from '@sthene/store';

/** What a setup says to the analysis of a jump: height of the box, m, and load carried, kg. Undefined where it says nothing. */
export function jumpSetupOf({ jump }: Pick<Protocol, 'jump'>, setup: Setup): AnalysisRequest['jumpSetup'] {
  if (jump === undefined) return undefined;
  const { box_height: box, load } = setup;
  const boxHeight = jump.kind === 'drop' && typeof box === 'number' ? { boxHeight: box / 100 } : {};
  const loaded = jump.loaded && typeof load === 'number' ? { load } : {};
  const said = { ...boxHeight, ...loaded };
  return Object.keys(said).length === 0 ? undefined : said;
}
