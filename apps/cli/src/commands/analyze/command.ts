import { defaultMethod } from '@sthene/core';
import { Command } from 'commander';
import { jumpMethodNamed, methodNamed } from '../../files/method-named.ts';
import { protocolNamed } from '../../files/protocol-named.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { progress } from '../../terminal/progress.ts';
import { type AnalysedRecording, analyseFile } from './analyze-file.ts';
import { type FileError, resultDocumentOf } from './document.ts';
import { type AnalyzeOptions, withReadingOptions, withTestOptions } from './options.ts';
import { packageOf } from './package.ts';
import { metricTable } from './table.ts';
import { documentWords } from './words.ts';
import { writeOut, writeWhole } from './write-out.ts';

export function analyzeCommand(context: CommandContext): Command {
  const command = new Command('analyze')
    .description('Measure every pull or jump in the files and say which of them count.')
    .argument('<files...>', 'recordings: text, C3D or Parquet')
    .option(
      '--method <NAME|FILE>',
      'a built-in method, or a method document; for jumps: jumps, jumps-10, jumps-20, jumps-30',
      'standard',
    );
  return withReadingOptions(withTestOptions(command))
    .option('--json', 'print one document with every value in full precision')
    .option('--csv', 'print every metric, one a line')
    .option('--out <DIR>', 'write results.json (and results.csv with --csv) there instead of printing')
    .option('--package <FILE>', 'also write curves and results as a Data Package (.zip), to share or to keep')
    .option('--overwrite', 'let --out and --package replace files')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene analyze pull.csv\n  sthene analyze day/*.csv --csv > values.csv\n  sthene analyze pull.csv --right plate_1_fz --left plate_2_fz --json\n  sthene analyze squad.c3d --left-plate 1 --right-plate 2 --body-weight 742\n  sthene analyze jumps.csv --test countermovement-jump --efforts all',
    )
    .action(async (files: string[], options: AnalyzeOptions) =>
      context.finish(await analyzeAll(files, options, context)),
    );
}

async function analyzeAll(files: readonly string[], options: AnalyzeOptions, { terminal }: CommandContext) {
  if (options.json && options.csv && options.out === undefined)
    throw new Failure(
      'options-clash',
      'Only one of --json and --csv can be printed.',
      'Add --out DIR to get both as files.',
      exitCodes.usage,
    );
  const protocol = protocolNamed(options.test, options.baseline);
  const jumpMethod = protocol.jump === undefined ? undefined : jumpMethodNamed(options.method);
  const recipes =
    jumpMethod === undefined
      ? { method: await methodNamed(options.method, options.baseline, protocol) }
      : { method: defaultMethod, jumpMethod };
  const analysed: AnalysedRecording[] = [];
  const errors: FileError[] = [];
  const bar = progress(terminal, files.length);
  for (const file of files) {
    bar.step(file);
    try {
      analysed.push(...(await analyseFile(file, protocol, recipes, options)));
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      if (error.exitCode === exitCodes.usage) throw error;
      errors.push({ file, code: error.code, message: `${error.message} ${error.next}` });
      bar.say(`sthene: ${file}: ${error.message} [${error.code}]\n  ${error.next}\n`);
    }
  }
  bar.end();
  const document = resultDocumentOf(analysed, errors, jumpMethod ?? recipes.method);
  const json = `${JSON.stringify(document, null, 2)}\n`;
  if (options.package !== undefined && analysed.length > 0) {
    await writeWhole(options.package, await packageOf(analysed), options.overwrite === true);
    terminal.err(`Wrote ${options.package}.\n`);
  }
  if (options.out !== undefined) {
    const written = [await writeOut(options.out, 'results.json', json, options.overwrite === true)];
    if (options.csv)
      written.push(await writeOut(options.out, 'results.csv', metricTable(document), options.overwrite === true));
    terminal.err(`Wrote ${written.join(' and ')}.\n`);
  } else if (options.json) terminal.out(json);
  else if (options.csv) terminal.out(metricTable(document));
  else terminal.out(documentWords(document));
  if (files.length > 1 || errors.length > 0)
    terminal.err(
      `${files.length - errors.length} of ${files.length} files analysed${errors.length ? `; not analysed: ${errors.map((one) => one.file).join(', ')}` : ''}.\n`,
    );
  if (errors.length > 0) return exitCodes.inputInvalid;
  return analysed.some((one) => one.trials.some((trial) => trial.reason === undefined))
    ? exitCodes.done
    : exitCodes.nothingFound;
}
