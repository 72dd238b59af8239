import type { FormatError } from './format-error.ts';

/** A refusal to write, thrown because `Format.write` has no other way to say so; `error` is the refusal as data. */
export class WriteRefused extends Error {
  readonly error: FormatError;
  constructor(error: FormatError) {
    super(error.message);
    this.name = 'WriteRefused';
    this.error = error;
  }
}
