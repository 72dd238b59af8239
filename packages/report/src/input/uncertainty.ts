/** How sure a headline value is, as the station computed it. */
export interface UncertaintyFacts {
  /** The value itself: its size says how many decimals both are given with. */
  readonly value: number;
  /** Expanded, in the unit of the value. */
  readonly expanded: number;
  readonly unit: string;
  readonly coverage: number;
  /** Ids of parts that may matter and of which nothing is known. */
  readonly unknown: readonly string[];
}
