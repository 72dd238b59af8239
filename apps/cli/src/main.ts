import { run } from './program.ts';
import { processTerminal } from './terminal/terminal.ts';

// a reader such as `head` may close its end early; that is not an error of ours
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.on('SIGINT', () => process.exit(130));
process.exitCode = await run(process.argv.slice(2), processTerminal(process));
