import type { ExitCode } from './exit-codes.ts';

/** A refusal a command ends with: permanent code, words, next step, exit code. */
export class Failure extends Error {
  readonly code: string;
  readonly next: string;
  readonly exitCode: ExitCode;

  constructor(code: string, message: string, next: string, exitCode: ExitCode) {
    super(message);
    this.name = 'Failure';
    this.code = code;
    this.next = next;
    this.exitCode = exitCode;
  }
}
