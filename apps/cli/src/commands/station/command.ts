import type { NetworkView } from '@sthene/contract';
import { Command } from 'commander';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { openInBrowser } from './open-in-browser.ts';

interface StationOptions {
  readonly port?: string;
  readonly data?: string;
  readonly database?: string;
  readonly open?: boolean;
  readonly network?: boolean;
  readonly networkPort?: string;
  readonly source?: readonly string[];
  readonly handsFree?: boolean;
  readonly people?: string;
  readonly test?: readonly string[];
  readonly battery?: string;
}

export function stationCommand({ terminal, finish }: CommandContext): Command {
  return new Command('station')
    .description('Start the station on this machine and serve its screens.')
    .option('--port <N>', 'port on this machine; the next free one is taken when it is in use')
    .option('--data <DIR>', 'data folder (or set STHENE_DATA)')
    .option('--database <URL>', 'keep facts in PostgreSQL instead of the embedded database (or set STHENE_DATABASE)')
    .option(
      '--source <FILE>',
      'run a day on the plates this source description names, without a screen; may be given again for another plate or rig',
      (file: string, files: readonly string[] = []) => [...files, file],
    )
    .option('--hands-free', 'give the cues by itself; whoever stands ready is cued')
    .option('--people <FILE>', 'people in their order, one a line: given name, family name, code, day of birth')
    .option(
      '--test <ID>',
      'test of the day: imtp unless given; may be given again, in the order of the tests',
      (test: string, tests: readonly string[] = []) => [...tests, test],
    )
    .option(
      '--battery <ORDER>',
      'everybody does all tests with one weighing on each rig: by-person (one athlete through all tests) or by-test (one test for all, then the next)',
    )
    .option('--network', 'open the station to paired devices in the room, over TLS; remembered until --no-network')
    .option('--no-network', 'close it to the room again')
    .option('--network-port <N>', 'port for the room; the next free one is taken when it is in use')
    .option('--open', 'open the start screen in the browser')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene station --open\n  sthene station --data ~/strength-lab --port 8100\n  sthene station --network\n  sthene station --source plates.json --hands-free --people squad.txt\n  sthene station --source plates.json --hands-free --people squad.txt --test countermovement-jump --test imtp --battery by-person',
    )
    .action(async (options: StationOptions) => {
      // loaded here so that the other commands start without the server
      const { ProblemError, startStation } = await import('@sthene/station');
      const headless = headlessOf(options);
      const station = await startStation({
        ...(options.port === undefined ? {} : { port: Number(options.port) }),
        ...(options.data === undefined ? {} : { data: options.data }),
        ...(options.database === undefined ? {} : { database: options.database }),
        ...(options.network === undefined ? {} : { network: options.network }),
        ...(options.networkPort === undefined ? {} : { networkPort: portOf(options.networkPort) }),
        ...(headless === undefined ? {} : { headless }),
      }).catch((error: unknown) => {
        if (!(error instanceof ProblemError)) throw error;
        throw new Failure(error.code, error.message, error.next, exitCodes.device);
      });
      terminal.err(
        `Sthene is ready: ${station.address}\n  data folder: ${station.dataFolder}\n  ${headless === undefined ? '' : `A day runs on ${headless.sources.length === 1 ? 'this source' : 'these sources'}, ${headless.handsFree ? 'hands-free' : 'guided from a screen'}.\n  `}${inTheRoom(await station.network())} Stop with Ctrl-C; everything saved is safe.\n`,
      );
      if (options.open) openInBrowser(station.address);
      await station.stopped(['SIGINT', 'SIGTERM']);
      finish(exitCodes.done);
    });
}

/** How the station stands on the network, for whoever started it. */
function inTheRoom({ on, open, problem, addresses, authority }: NetworkView): string {
  if (problem !== undefined) return `This machine only. ${problem.detail} [${problem.code}]\n  ${problem.next}\n `;
  if (!on || !open) return 'This machine only.';
  const where = addresses.map(({ url }) => `    ${url}`).join('\n');
  return `In the room, for paired devices:\n${where}\n  fingerprint of its authority: ${authority?.fingerprint ?? ''}\n `;
}

function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new Failure('port-invalid', `"${text}" is no port.`, 'Give a number from 1 to 65535.', exitCodes.usage);
}

function orderOf(text: string): 'by-person' | 'by-test' {
  if (text === 'by-person' || text === 'by-test') return text;
  throw new Failure(
    'battery-unknown',
    `"${text}" is no order of a battery.`,
    'Give by-person or by-test.',
    exitCodes.usage,
  );
}

/** A day is run where sources are named; the other options of a day mean nothing without one. */
function headlessOf(options: StationOptions) {
  const { source, handsFree, people, test, battery } = options;
  if (source === undefined) {
    if (handsFree || people !== undefined || test !== undefined || battery !== undefined)
      throw new Failure(
        'source-missing',
        'A day needs plates to run on.',
        'Name a source description with --source.',
        exitCodes.usage,
      );
    return undefined;
  }
  return {
    sources: source,
    handsFree: handsFree === true,
    ...(people === undefined ? {} : { people }),
    ...(test === undefined ? {} : { tests: test }),
    ...(battery === undefined ? {} : { battery: orderOf(battery) }),
  };
}
