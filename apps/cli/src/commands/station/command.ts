import { Command } from 'commander';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { openInBrowser } from './open-in-browser.ts';

interface StationOptions {
  readonly port?: string;
  readonly data?: string;
  readonly database?: string;
  readonly open?: boolean;
}

export function stationCommand({ terminal, finish }: CommandContext): Command {
  return new Command('station')
    .description('Start the station on this machine and serve its screens.')
    .option('--port <N>', 'port on this machine; the next free one is taken when it is in use')
    .option('--data <DIR>', 'data folder (or set STHENE_DATA)')
    .option('--database <URL>', 'keep facts in PostgreSQL instead of the embedded database (or set STHENE_DATABASE)')
    .option('--open', 'open the start screen in the browser')
    .addHelpText('after', '\nExamples:\n  sthene station --open\n  sthene station --data ~/strength-lab --port 8100')
    .action(async (options: StationOptions) => {
      // loaded here so that the other commands start without the server
      const { startStation } = await import('@sthene/station');
      const station = await startStation({
        ...(options.port === undefined ? {} : { port: Number(options.port) }),
        ...(options.data === undefined ? {} : { data: options.data }),
        ...(options.database === undefined ? {} : { database: options.database }),
      });
      terminal.err(
        `Sthene is ready: ${station.address}\n  data folder: ${station.dataFolder}\n  This machine only. Stop with Ctrl-C; everything saved is safe.\n`,
      );
      if (options.open) openInBrowser(station.address);
      await station.stopped(['SIGINT', 'SIGTERM']);
      finish(exitCodes.done);
    });
}
