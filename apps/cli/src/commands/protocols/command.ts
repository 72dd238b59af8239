import { writeFile } from 'node:fs/promises';
import {
  type ProtocolDocument,
  protocolAdvice,
  protocolDifferences,
  protocolReference,
  protocolSentences,
} from '@sthene/core';
import { Command } from 'commander';
import { type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import { protocolFileAt } from '../../files/protocol-file.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { printable } from '../../terminal/terminal.ts';
import { knownProtocols, protocolNamed } from './find.ts';

type Options = LabOptions & { readonly json?: boolean; readonly number?: number };

export function protocolsCommand(context: CommandContext): Command {
  const command = new Command('protocols').description('List, show, export and check protocols: how a test is run.');
  command.addHelpText(
    'after',
    '\nExamples:\n  sthene protocols list\n  sthene protocols show imtp\n  sthene protocols export "Boathouse pull" --number 2 > boathouse.protocol.json\n  sthene protocols check boathouse.protocol.json',
  );
  list(command, context);
  show(command, context);
  exportOne(command, context);
  check(command, context);
  return command;
}

function list(command: Command, { terminal, finish }: CommandContext): void {
  withLabOptions(command.command('list').description('list the built-in protocols and those of the lab'))
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExample:\n  sthene protocols list --json')
    .action(async (options: Options) => {
      const rows = (await knownProtocols(options)).flatMap(({ id, builtIn, archived, versions }) => {
        const [newest] = versions;
        if (newest === undefined) return [];
        return [
          { id, ...protocolReference(newest), test: newest.test.id, builtIn, archived, versions: versions.length },
        ];
      });
      terminal.out(
        options.json
          ? `${JSON.stringify({ schema: 'sthene.protocols/1', protocols: rows }, null, 2)}\n`
          : rows
              .map(
                (row) =>
                  `${row.sha256.slice(0, 12)}  ${printable(row.name)}, version ${row.version}  ${row.test}${row.builtIn ? `  built in as ${row.id}` : ''}${row.archived ? '  archived' : ''}\n`,
              )
              .join(''),
      );
      finish(exitCodes.done);
    });
}

const withVersion = (command: Command): Command =>
  command.option('--number <NUMBER>', 'this version instead of the newest', Number);

function show(command: Command, { terminal, finish }: CommandContext): void {
  withVersion(withLabOptions(command.command('show').description('say in plain sentences how a protocol runs')))
    .argument('<protocol>', 'short id, name, id or hash')
    .option('--json', 'print the document')
    .addHelpText('after', '\nExample:\n  sthene protocols show imtp-explosive')
    .action(async (name: string, options: Options) => {
      const document = await protocolNamed(name, options);
      terminal.out(options.json ? jsonOf(document) : words(document));
      finish(exitCodes.done);
    });
}

function exportOne(command: Command, { terminal, finish }: CommandContext): void {
  withVersion(withLabOptions(command.command('export').description('write a protocol as a file to share')))
    .argument('<protocol>', 'short id, name, id or hash')
    .option('--out <FILE>', 'write into a new file instead of printing')
    .addHelpText('after', '\nExample:\n  sthene protocols export imtp --out boathouse.protocol.json')
    .action(async (name: string, options: Options & { readonly out?: string }) => {
      const document = await protocolNamed(name, options);
      if (options.out === undefined) terminal.out(jsonOf(document));
      else {
        await writeFile(options.out, jsonOf(document), { flag: 'wx' }).catch((error: NodeJS.ErrnoException) => {
          throw refusedFile(options.out as string, error.code);
        });
        terminal.err(`${options.out}: ${document.name}, version ${document.version}\n`);
      }
      finish(exitCodes.done);
    });
}

function check(command: Command, { terminal, finish }: CommandContext): void {
  command
    .command('check')
    .description('say every fault of a protocol file, and what deserves a thought')
    .argument('<file>', 'a protocol file')
    .option('--against <FILE>', 'say what differs from another protocol file')
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExample:\n  sthene protocols check boathouse.protocol.json --json')
    .action(async (file: string, options: { readonly json?: boolean; readonly against?: string }) => {
      const judged = await protocolFileAt(file);
      const advice = judged.ok ? protocolAdvice(judged.document) : [];
      const faults = judged.ok ? [] : judged.faults;
      const other = options.against === undefined ? undefined : await protocolFileAt(options.against);
      const differences = judged.ok && other?.ok ? protocolDifferences(other.document, judged.document) : undefined;
      if (options.json) {
        const reference = judged.ok ? protocolReference(judged.document) : undefined;
        const answer = {
          schema: 'sthene.protocol-check/1',
          file,
          usable: judged.ok,
          reference,
          faults,
          advice,
          differences,
        };
        terminal.out(`${JSON.stringify(answer, null, 2)}\n`);
      } else {
        for (const { code, at, words: said, found } of faults)
          terminal.err(`sthene: ${at || 'document'}: ${said} Found ${printable(found)}. [${code}]\n`);
        for (const { code, at, words: said } of advice) terminal.err(`${at}: ${said} [${code}]\n`);
        if (judged.ok) terminal.out(words(judged.document));
        for (const { title, before = 'nothing', after = 'nothing' } of differences ?? [])
          terminal.out(`  ${printable(title)}: ${printable(before)} -> ${printable(after)}\n`);
      }
      if (other !== undefined && !other.ok) throw refusedFile(options.against as string, undefined);
      finish(judged.ok ? exitCodes.done : exitCodes.inputInvalid);
    });
}

const jsonOf = (document: ProtocolDocument): string => `${JSON.stringify(document, null, 2)}\n`;

function words(document: ProtocolDocument): string {
  const { name, version, sha256 } = protocolReference(document);
  const lines = protocolSentences(document).map((one) => `  ${printable(one)}\n`);
  return `${printable(name)}, version ${version}\n  SHA-256 ${sha256}\n${lines.join('')}`;
}

function refusedFile(path: string, code: string | undefined): Failure {
  return code === undefined
    ? new Failure(
        'protocol-invalid',
        `"${path}" is no protocol that can be used.`,
        `Check it with "sthene protocols check ${path}".`,
        exitCodes.inputInvalid,
      )
    : new Failure(
        code === 'EEXIST' ? 'file-exists' : 'file-not-writable',
        code === 'EEXIST' ? `"${path}" is there already.` : `"${path}" cannot be written (${code}).`,
        'Choose another name; nothing was written.',
        exitCodes.refused,
      );
}
