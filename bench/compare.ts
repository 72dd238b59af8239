/** The numbers of one pull by name. */
export type Numbers = Readonly<Record<string, number>>;

export interface Agreement {
  /** Largest relative difference of any number. */
  readonly largest: number;
  readonly where: string;
  /** Names that were compared. */
  readonly names: readonly string[];
}

/** What both sides of a comparison must give, or the comparison is none. */
export const required = [
  'baseline_mean',
  'baseline_sd',
  'onset',
  'peak_force',
  'force_at_100',
  'force_at_200',
  'rfd_0_100',
  'rfd_0_200',
  'impulse_0_200',
] as const;

/**
 * Compares the numbers of two sides, pull by pull: every number of the reference must be there on our side too. The onset must be
 * the same sample; the rest is compared relative to its size.
 *
 * @throws Error naming the number and the pull when something is missing
 */
export function agreement(ours: readonly Numbers[], reference: readonly Numbers[]): Agreement {
  if (ours.length !== reference.length || ours.length === 0)
    throw new Error(`${ours.length} pulls stand against ${reference.length}.`);
  let largest = 0;
  let where = '';
  const all = new Set<string>();
  reference.forEach((theirs, i) => {
    for (const name of new Set([...required, ...Object.keys(theirs)])) {
      all.add(name);
      const [a, b] = [ours[i]?.[name], theirs[name]];
      if (a === undefined || b === undefined) throw new Error(`Pull ${i + 1} lacks ${name} on one side.`);
      const apart = Math.abs(a - b) / (name === 'onset' ? 1 : Math.max(Math.abs(b), 1e-9));
      const difference = Number.isNaN(apart) ? Number.POSITIVE_INFINITY : apart;
      if (difference > largest) {
        largest = difference;
        where = `${name} of pull ${i + 1}`;
      }
    }
  });
  return { largest, where, names: [...all] };
}

/** Throws when the two sides differ by more than 1e-6. */
export function mustAgree(ours: readonly Numbers[], reference: readonly Numbers[]): Agreement {
  const found = agreement(ours, reference);
  if (found.largest > 1e-6) throw new Error(`The two sides differ by ${found.largest} in ${found.where}.`);
  return found;
}
