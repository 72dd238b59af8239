import { methodReference, methodRegistry } from '@sthene/core';
import { Command } from 'commander';
import { methodNamed } from '../../files/method-named.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { type AnalyzeOptions, withReadingOptions, withTestOptions } from '../analyze/options.ts';
import { compareMethods } from './compare.ts';

export function methodsCommand(context: CommandContext): Command {
  const { terminal, finish } = context;
  const command = new Command('methods').description('List the built-in methods, show one, or compare two on files.');
  command.addHelpText(
    'after',
    '\nExamples:\n  sthene methods list\n  sthene methods show standard --json\n  sthene methods compare standard fixed-75 day/*.csv',
  );
  command
    .command('list')
    .description('list the built-in methods')
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExample:\n  sthene methods list --json')
    .action((options: { json?: boolean }) => {
      const rows = methodRegistry.all.map(({ id, method }) => ({
        id,
        ...methodReference(method),
        summary: method.summary,
      }));
      terminal.out(
        options.json
          ? `${JSON.stringify(rows, null, 2)}\n`
          : rows
              .map(
                (row) =>
                  `${row.id.padEnd(14)} ${row.name} ${row.version}  ${row.sha256.slice(0, 12)}\n${' '.repeat(15)}${row.summary}\n`,
              )
              .join(''),
      );
      finish(exitCodes.done);
    });
  command
    .command('show')
    .description('print a method document')
    .argument('<method>', 'a built-in method or a file')
    .option('--json', 'print the document as it is hashed')
    .option('--baseline <SECONDS>', 'show the derived method with another baseline length', Number)
    .addHelpText('after', '\nExample:\n  sthene methods show standard --json > my-method.json')
    .action(async (name: string, options: { json?: boolean; baseline?: number }) => {
      const method = await methodNamed(name, options.baseline);
      const reference = methodReference(method);
      terminal.out(
        options.json
          ? `${JSON.stringify(method, null, 2)}\n`
          : `${reference.name}, version ${reference.version}\n  SHA-256 ${reference.sha256}\n  ${method.summary}\n  onset rule ${method.onset.rule}, ${method.filter ? `low-pass ${method.filter.cutoff} Hz` : 'no filter'}, quiet window ${method.window.baseline} s, summary ${method.set.summary}\n`,
      );
      finish(exitCodes.done);
    });
  const compare = command
    .command('compare')
    .description('analyse files by two methods and show how far they are apart')
    .argument('<first>', 'a built-in method or a file')
    .argument('<second>', 'a built-in method or a file')
    .argument('<files...>', 'recordings');
  withReadingOptions(withTestOptions(compare))
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExample:\n  sthene methods compare standard fixed-75 day/*.csv')
    .action(async (first: string, second: string, files: string[], options: AnalyzeOptions) =>
      finish(await compareMethods(first, second, files, options, context)),
    );
  return command;
}
