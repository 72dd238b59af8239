import type { LabReader } from '@sthene/station';
import type { Command } from 'commander';
import { exitCodes } from '../terminal/exit-codes.ts';
import { Failure } from '../terminal/failure.ts';

/** Where a lab is read from. */
export interface LabOptions {
  readonly data?: string;
  readonly database?: string;
  readonly example?: boolean;
}

export const withLabOptions = (command: Command): Command =>
  command
    .option('--data <DIR>', 'data folder (or set STHENE_DATA)')
    .option('--database <URL>', 'PostgreSQL instead of the embedded database (or set STHENE_DATABASE)')
    .option('--example', 'the example of the club Fernwater instead of the lab');

/** Opens the lab, does something with it, and closes it; a refusal of the station becomes one of the command. */
export async function inLab<T>(options: LabOptions, act: (lab: LabReader) => Promise<T>): Promise<T> {
  // loaded here so that the other commands start without the server
  const { ProblemError, readLab } = await import('@sthene/station');
  let lab: LabReader | undefined;
  try {
    lab = await readLab({
      ...(options.data === undefined ? {} : { data: options.data }),
      ...(options.database === undefined ? {} : { database: options.database }),
      lab: options.example ? 'example' : 'lab',
    });
    return await act(lab);
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    const code = error.status === 404 ? exitCodes.nothingFound : exitCodes.inputInvalid;
    throw new Failure(error.code, error.message, error.next, code);
  } finally {
    await lab?.close();
  }
}
