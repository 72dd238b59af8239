import type { SessionView } from '@sthene/contract';
import { Command } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { printable } from '../../terminal/terminal.ts';

export function trialsCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('trials')
    .description('List the trials of a session with how each stands.')
    .argument('<session>', 'id of a session, as `sthene sessions` prints it');
  return withLabOptions(command)
    .option('--json', 'print as JSON, each trial with its whole result')
    .addHelpText('after', '\nExample:\n  sthene trials 3f0c8a5e-8f0f-4a52-9d1c-2f7a54b7a0c1 --json')
    .action(async (id: string, options: LabOptions & { readonly json?: boolean }) => {
      const text = await inLab(options, async (lab) => {
        const session = await lab.session(id);
        if (!options.json) return table(session);
        const trials = await Promise.all(session.rows.map((row) => lab.trial(row.id)));
        return `${JSON.stringify({ schema: 'sthene.trials/1', session, trials }, null, 2)}\n`;
      });
      terminal.out(text);
      finish(exitCodes.done);
    });
}

function table(session: SessionView): string {
  const weight = session.bodyWeight === undefined ? '' : `, body weight ${session.bodyWeight.value.toFixed(1)} N`;
  const head = `${printable(session.person.name)} (${printable(session.person.code)}), ${session.protocol}, ${session.startedAt}${weight}\n`;
  return (
    head +
    session.rows
      .map((row) => {
        const peak = row.peakForce === undefined ? '' : `  peak force ${row.peakForce.toFixed(0)} ${row.unit}`;
        const worst = row.worst === undefined ? '' : `  ${row.worst}`;
        return `${String(row.order).padStart(3)}  ${row.id}  ${row.effort.padEnd(15)} ${row.state.padEnd(10)}${peak}${worst}\n`;
      })
      .join('')
  );
}
