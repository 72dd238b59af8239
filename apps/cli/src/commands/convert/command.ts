import { basename, dirname, extname } from 'node:path';
import type { Recording } from '@sthene/core';
import { type Format, formats, WriteRefused } from '@sthene/formats';
import { Command } from 'commander';
import { readFile } from '../../files/read.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { withReadingOptions } from '../analyze/options.ts';
import { writeWhole } from '../analyze/write-out.ts';

interface ConvertOptions {
  readonly rate?: number;
  readonly overwrite?: boolean;
}

type Writable = Format & Required<Pick<Format, 'write'>>;
const writable = formats.filter((format): format is Writable => format.write !== undefined);

export function convertCommand(context: CommandContext): Command {
  const command = new Command('convert')
    .description('Rewrite a recording in another format; the ending of OUT names it.')
    .argument('<in>', 'recording to read')
    .argument('<out>', `file to write: ${writable.map((one) => `.${one.extensions[0]}`).join(', ')}`);
  return withReadingOptions(command)
    .option('--overwrite', 'replace OUT if it exists')
    .addHelpText('after', '\nExamples:\n  sthene convert pull.csv pull.parquet\n  sthene convert pull.c3d pull.csv')
    .action(async (from: string, to: string, options: ConvertOptions) =>
      context.finish(await convert(from, to, options, context)),
    );
}

async function convert(from: string, to: string, options: ConvertOptions, { terminal }: CommandContext) {
  const format = writable.find((one) => one.extensions.includes(extname(to).slice(1).toLowerCase()));
  if (format === undefined) {
    throw new Failure(
      'output-format-unknown',
      `No format is written with the ending "${extname(to)}".`,
      `Use one of ${writable.flatMap((one) => one.extensions.map((ending) => `.${ending}`)).join(', ')}.`,
      exitCodes.usage,
    );
  }
  const file = await readFile(from, options);
  const many = file.recordings.length > 1;
  for (const [i, { label, recording }] of file.recordings.entries()) {
    const path = many ? `${dirname(to)}/${basename(to, extname(to))}-${fileSafe(label) || i + 1}${extname(to)}` : to;
    await writeWhole(path, await written(format, recording), options.overwrite === true);
    for (const notice of recording.notices) terminal.err(`${path}: ${notice.message} [${notice.code}]\n`);
    terminal.err(`Wrote ${path}.\n`);
  }
  return exitCodes.done;
}

/** The bytes of a recording in a format; a format's refusal becomes this command's. */
async function written(format: Writable, recording: Recording): Promise<Uint8Array> {
  try {
    return await format.write(recording);
  } catch (error) {
    if (!(error instanceof WriteRefused)) throw error;
    throw new Failure(error.error.code, error.error.message, error.error.next, exitCodes.inputInvalid);
  }
}

const fileSafe = (label: string) => label.replace(/[^\p{L}\p{N}._-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '');
