import type { SessionRow } from '@sthene/contract';
import { Command } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { printable } from '../../terminal/terminal.ts';

export function sessionsCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('sessions').description('List the sessions of a data folder, newest first.');
  return withLabOptions(command)
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExamples:\n  sthene sessions\n  sthene sessions --data ~/strength-lab --json')
    .action(async (options: LabOptions & { readonly json?: boolean }) => {
      const rows = await inLab(options, (lab) => lab.sessions());
      terminal.out(
        options.json ? `${JSON.stringify({ schema: 'sthene.sessions/1', sessions: rows }, null, 2)}\n` : table(rows),
      );
      finish(rows.length === 0 ? exitCodes.nothingFound : exitCodes.done);
    });
}

function table(rows: readonly SessionRow[]): string {
  if (rows.length === 0) return 'No session.\n';
  return rows
    .map((row) => {
      const peak =
        row.peakForce === undefined
          ? ''
          : `  peak force ${row.peakForce.value.toFixed(0)} ${row.peakForce.unit} (n = ${row.peakForce.n})`;
      const trials =
        row.received === undefined
          ? `${row.counting} of ${row.trials} count`
          : `results only (${printable(row.received.methodLabel)})`;
      return `${row.id}  ${row.startedAt.slice(0, 16).replace('T', ' ')}  ${printable(row.person.name)} (${printable(row.person.code)})  ${row.protocol}  ${trials}${peak}\n`;
    })
    .join('');
}
