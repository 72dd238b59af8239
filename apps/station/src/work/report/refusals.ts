import { ProblemError } from '../../server/problem-error.ts';

/** Refusals of reports, spelled once. */
export const missing = (what: string, how: string) =>
  new ProblemError(
    400,
    'report-subject-missing',
    `It is not said of which ${what} the report shall be.`,
    `Name it in ${how}.`,
  );

export const nothingToSay = (detail: string) =>
  new ProblemError(422, 'report-nothing-to-say', detail, 'The report can be made as soon as there is a session.');

export const massOfMinor = () =>
  new ProblemError(
    422,
    'report-mass-of-minor',
    'This value tells body mass, and the athlete is under 18 or has no birth date here.',
    'Choose another value as peak force, or enter the birth date.',
  );
