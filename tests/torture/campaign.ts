/** One promise under torture. */
export interface Campaign {
  /** Number of the promise in the project's list. */
  readonly promise: number;
  readonly name: string;
  readonly claim: string;
  /** Rounds in continuous integration, and under torture. */
  readonly rounds: { readonly short: number; readonly full: number };
  /**
   * One round. Throws when the promise is broken; the message says how. Everything random comes from the seed.
   *
   * @param alone nothing else runs on this machine, so that times may be compared
   * @returns figures worth summing up, by name
   */
  round(seed: number, alone: boolean): Promise<Readonly<Record<string, number>>>;
  /** Why it cannot run here; undefined when it can. */
  unavailable?(): Promise<string | undefined>;
}

export interface CampaignResult {
  readonly rounds: number;
  readonly sums: Readonly<Record<string, number>>;
  readonly failure?: { readonly seed: number; readonly message: string };
}

/** Runs rounds with seeds `first`, `first + 1`, ... up to the first failure. */
export async function runCampaign(
  campaign: Campaign,
  first: number,
  rounds: number,
  alone = false,
): Promise<CampaignResult> {
  const sums: Record<string, number> = {};
  for (let i = 0; i < rounds; i++) {
    const seed = first + i;
    try {
      for (const [name, value] of Object.entries(await campaign.round(seed, alone)))
        sums[name] = (sums[name] ?? 0) + value;
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      return { rounds: i + 1, sums, failure: { seed, message } };
    }
  }
  return { rounds, sums };
}

export function must(condition: boolean, message: string): void {
  if (!condition) throw new Error(message);
}
