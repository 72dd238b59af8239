import { run } from './program.ts';
import { processTerminal } from './terminal/terminal.ts';

// a reader such as `head` may close its end early; that is not an error of ours
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

// Answers at once, unless a command closes something first: the station takes the signal over; a second one never waits.
let interrupted = false;
process.on('SIGINT', () => {
  if (interrupted || process.listenerCount('SIGINT') === 1) process.exit(130);
  interrupted = true;
});
process.exitCode = await run(process.argv.slice(2), processTerminal(process));
