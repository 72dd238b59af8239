/** Exit codes, documented in docs/reference/command-line.md. */
export const exitCodes = {
  done: 0,
  unexpected: 1,
  usage: 2,
  inputInvalid: 3,
  nothingFound: 4,
  qualityGate: 5,
  device: 6,
  store: 7,
  refused: 8,
  interrupted: 130,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
