import type { Problem } from '@sthene/contract';

/** A refusal with everything a person needs; the error handler turns it into problem details. */
export class ProblemError extends Error {
  readonly status: number;
  readonly code: string;
  readonly next: string;

  constructor(status: number, code: string, detail: string, next: string) {
    super(detail);
    this.name = 'ProblemError';
    this.status = status;
    this.code = code;
    this.next = next;
  }

  toProblem(instance: string): Problem {
    return {
      type: `urn:sthene:problem:${this.code}`,
      title: titles[this.status] ?? 'Refused',
      status: this.status,
      code: this.code,
      detail: this.message,
      next: this.next,
      instance,
    };
  }
}

const titles: Readonly<Record<number, string>> = {
  400: 'Not understood',
  401: 'Not known here',
  403: 'Not allowed',
  404: 'Not found',
  409: 'In conflict',
  410: 'Not here any more',
  413: 'Too large',
  415: 'Not this kind of content',
  416: 'Outside',
  422: 'Cannot be used',
  429: 'Too many tries',
  500: 'Something went wrong here',
  507: 'No space',
};

/** The usual refusals, spelled once. */
export const problems = {
  notFound: (what: string) =>
    new ProblemError(
      404,
      'not-found',
      `There is no such ${what}.`,
      'It may have been opened from an old address. Go back to the list and choose it there.',
    ),
  labMissing: () =>
    new ProblemError(404, 'lab-missing', 'This lab has not been set up yet.', 'Set it up on the start screen.'),
  invalid: (detail: string) =>
    new ProblemError(400, 'request-invalid', detail, 'Nothing was changed. Correct what is named and send it again.'),
  foreignPage: () =>
    new ProblemError(
      403,
      'foreign-origin',
      'This request came from another page or under another name.',
      'Open the station by the address it printed when it started.',
    ),
  tooLarge: (limit: number) =>
    new ProblemError(
      413,
      'upload-too-large',
      `The file is larger than ${Math.round(limit / 1048576)} MB.`,
      'Use the command line for very large files: "sthene convert" makes a smaller one.',
    ),
  notBytes: () =>
    new ProblemError(
      415,
      'upload-not-bytes',
      'The file must be sent as raw bytes.',
      'Send it with content type application/octet-stream.',
    ),
};
