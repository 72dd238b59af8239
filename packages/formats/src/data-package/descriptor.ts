import type { RecordingDescription } from '../description/index.ts';

/** The profile that descriptors name; without it the older profile 1.0 would be assumed. */
export const profile = 'https://datapackage.org/profiles/2.0/datapackage.json';

/** Who may do what with the data. */
export interface License {
  /** Open Definition id, as in `CC-BY-4.0`. */
  readonly name: string;
  readonly path?: string;
  readonly title?: string;
}

/** What a person says about a package. */
export interface PackageInfo {
  /** Lower-case letters, digits, `.`, `-`, `_`; stable. */
  readonly name: string;
  readonly title?: string;
  readonly description?: string;
  readonly version?: string;
  /** RFC 3339. Given by the caller: the writer has no clock. */
  readonly created?: string;
  readonly keywords?: readonly string[];
  readonly licenses?: readonly License[];
  readonly contributors?: readonly { readonly title: string; readonly roles?: readonly string[] }[];
  readonly sources?: readonly { readonly title: string; readonly path?: string; readonly version?: string }[];
}

/** A column of a table; `unit` is a UCUM code (an extra property, which the standard allows). */
export interface Field {
  readonly name: string;
  readonly type: 'string' | 'number';
  readonly unit?: string;
  readonly description?: string;
  readonly constraints?: { readonly required: true };
}

/** A file of the package. */
export interface Resource {
  readonly name: string;
  readonly title?: string;
  readonly path: string;
  readonly type?: 'table';
  readonly format: string;
  readonly mediatype: string;
  readonly encoding: 'utf-8';
  readonly bytes: number;
  readonly hash: string;
  readonly schema?: { readonly fields: readonly Field[]; readonly missingValues: readonly string[] };
  /** Extra property: everything of the recording but its samples. */
  readonly recording?: RecordingDescription;
}

/** A `datapackage.json` as this product writes it. */
export interface Descriptor extends PackageInfo {
  readonly $schema: typeof profile;
  readonly resources: readonly Resource[];
}
