/** Where a published value was printed. */
export interface PublishedSource {
  readonly authors: string;
  /** Undefined where it was not checked. */
  readonly year?: number;
  readonly where: string;
  readonly doi?: string;
}

/** Whom and what a published value is of. Everything that its source was not seen to say is left out or `not-said`. */
export interface PublishedOf {
  readonly id: string;
  /** Protocol and metric it compares with, and the unit it was printed in (UCUM). */
  readonly test: string;
  readonly metric: string;
  readonly unit: string;
  readonly population: string;
  readonly sex: 'female' | 'male' | 'both' | 'not-said';
  readonly age?: string;
  readonly level?: string;
  /** Whether body weight is inside the force (`gross`) or taken off (`net`). */
  readonly weight: 'gross' | 'net' | 'not-said' | 'no-force';
  /** What is known of the protocol, and what speaks against comparing. */
  readonly remark: string;
  readonly source: PublishedSource;
  /** `abstract`: the numbers were checked against the abstract or the open page of the paper, the protocol was not. */
  readonly evidence: 'abstract';
}

/** Mean and SD of a group of people: a value can be given its place in it. */
export interface PublishedGroup extends PublishedOf {
  readonly mean: number;
  readonly sd: number;
  /** People of this group; undefined where the source was not seen to say. */
  readonly n?: number;
  /** People of all groups of the source together, where they are not known for each. */
  readonly among?: { readonly people: number; readonly groups: number };
}

/** Lowest and highest of something: for the size of a value, never for a place. */
export interface PublishedRange extends PublishedOf {
  readonly low: number;
  readonly high: number;
  /** Of the means of so many studies, or of so many people. */
  readonly of: 'study-means' | 'people';
  readonly n?: number;
}
