/** Where a command writes: data to `out`, words and progress to `err`. Tests pass their own. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** Whether words may be coloured and a progress line redrawn. */
  readonly lively: boolean;
}

/** The process's own streams; quiet where NO_COLOR is set or words do not go to a terminal. */
export function processTerminal(process: {
  stdout: NodeJS.WriteStream;
  stderr: NodeJS.WriteStream;
  env: NodeJS.ProcessEnv;
}): Terminal {
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    lively: Boolean(process.stderr.isTTY) && !process.env.NO_COLOR && process.env.TERM !== 'dumb',
  };
}

/** Text from outside made safe to print: control signs and direction overrides become visible marks. */
export function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control signs are what is looked for
  return text.replace(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/g, '\u{FFFD}');
}
