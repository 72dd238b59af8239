import { batteryQuery, pushOffRange, usualDaysApart } from '@sthene/contract';
import { Command } from 'commander';
import { inLab, type LabOptions, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { numberOption } from '../../terminal/numbers.ts';
import { day, wholeDays } from './options.ts';
import { batteryText } from './words.ts';

interface Options extends LabOptions {
  readonly on?: string;
  readonly apart: number;
  readonly pushOff?: number;
  readonly json?: boolean;
}

export function ratiosCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('ratios')
    .description(
      'Ratios of an athlete’s tests with both sides of each: dynamic strength index, eccentric utilisation, bilateral index, force and velocity.',
    )
    .argument('<athlete>', 'code of an athlete of the lab');
  return withLabOptions(command)
    .option('--on <DAY>', 'last day to look at, as 2026-03-28 (today unless given)', day)
    .option(
      '--apart <DAYS>',
      'days that may lie between the tests of one ratio (14 is common practice)',
      wholeDays,
      usualDaysApart,
    )
    .option(
      '--push-off <CM>',
      'push-off distance: stretched leg less height of the hip at the start (of the plates unless given)',
      numberOption(...pushOffRange),
    )
    .option('--json', 'print as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene ratios FW01 --example\n  sthene ratios FW06 --example --on 2024-12-31 --apart 0 --json',
    )
    .action(async (athlete: string, { on, apart, pushOff, json, ...lab }: Options) => {
      const asked = batteryQuery.parse({ on, apart, pushOff });
      const view = await inLab(lab, (open) => open.battery(athlete, asked));
      terminal.out(json ? `${JSON.stringify({ schema: 'sthene.ratios/1', ...view }, null, 2)}\n` : batteryText(view));
      finish(exitCodes.done);
    });
}
