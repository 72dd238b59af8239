/** A format's refusal as data: permanent code, what was expected, what came, where; then words. */
export interface FormatError {
  /** Permanent, kebab-case, prefixed by the format: `text-no-numbers`, `c3d-unknown-processor`, ... */
  readonly code: string;
  readonly expected?: string;
  readonly found?: string;
  readonly at?: { readonly byte?: number; readonly row?: number; readonly column?: number };
  /** What happened, in words. */
  readonly message: string;
  /** What to do next, in words. */
  readonly next: string;
}
