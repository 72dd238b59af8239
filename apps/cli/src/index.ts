export { run } from './program.ts';
export { exitCodes } from './terminal/exit-codes.ts';
export type { Terminal } from './terminal/terminal.ts';
