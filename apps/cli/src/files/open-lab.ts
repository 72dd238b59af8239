import type { LabReader, LabWriter, ReadLabOptions } from '@sthene/station';
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
  const { readLab } = await import('@sthene/station');
  return withLab(options, readLab, act);
}

/** As `inLab`, for what changes the lab or takes all of it out. */
export async function changingLab<T>(options: LabOptions, act: (lab: LabWriter) => Promise<T>): Promise<T> {
  const { writeLab } = await import('@sthene/station');
  return withLab(options, writeLab, act);
}

async function withLab<L extends { close(): Promise<void> }, T>(
  options: LabOptions,
  open: (options: ReadLabOptions) => Promise<L>,
  act: (lab: L) => Promise<T>,
): Promise<T> {
  const { ProblemError } = await import('@sthene/station');
  let lab: L | undefined;
  try {
    lab = await open({
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
