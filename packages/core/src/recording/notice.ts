/** Something worth telling a person about an input that could still be used: a permanent code, then words. */
export interface Notice {
  readonly code: string;
  readonly message: string;
}
