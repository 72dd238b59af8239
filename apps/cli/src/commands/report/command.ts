import { basename, dirname, extname } from 'node:path';
import { pushOffRange, type ReportKind, reportFormat, reportKind } from '@sthene/contract';
import { Command, Option } from 'commander';
import { inLab, withLabOptions } from '../../files/open-lab.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { numberOption } from '../../terminal/numbers.ts';
import { writeOut } from '../analyze/write-out.ts';
import { day, wholeDays } from '../ratios/options.ts';
import { batch, type Written } from './batch.ts';
import { queryOf, type ReportOptions } from './options.ts';

export function reportCommand({ terminal, finish }: CommandContext): Command {
  const command = new Command('report')
    .description('Write a report of stored results to hand out: PDF, XLSX, CSV, SVG, PNG or HTML.')
    .addArgument(new Command().createArgument('<kind>', 'what to report').choices(reportKind.options));
  return withLabOptions(command)
    .option('--person <ATHLETE>', 'athlete by code, for athlete and battery')
    .option(
      '--squad <SQUAD>',
      'squad by name, for squad and reliability; with athlete: a page for each of its athletes',
    )
    .option('--everybody', 'with athlete: a page for each athlete of the lab')
    .option('--session <ID>', 'session, for session')
    .option('--test <ID>', 'test (the one with most sessions unless given)')
    .option('--metric <ID>', 'metric (peak_force unless given)')
    .addOption(
      new Option('--against <REFERENCE>', 'what an athlete’s newest session is held against').choices([
        'last',
        'mean-of-three',
        'first',
      ]),
    )
    .option('--sessions <N>', 'newest sessions of each athlete, for reliability', numberOption(2, 20))
    .option('--protocol <ID>', 'protocol, for protocol and methods: short id, id or hash')
    .option('--rig <ID>', 'rig whose newest check is reported, for plates')
    .option('--check <ID>', 'check of a rig, for plates')
    .option('--method <ID>', 'method, for methods: built-in id or hash')
    .option('--on <DAY>', 'last day to look at, for battery', day)
    .option('--apart <DAYS>', 'days that may lie between the tests of one ratio, for battery', wholeDays)
    .option(
      '--push-off <CM>',
      'push-off distance, for battery (of the plates unless given)',
      numberOption(...pushOffRange),
    )
    .addOption(new Option('--as <FORMAT>', 'format').choices(reportFormat.options).default('pdf'))
    .option('--part <ID>', 'table of a CSV, figure of an SVG or PNG (the first unless given)')
    .addOption(new Option('--paper <SIZE>', 'paper (what the lab chose unless given)').choices(['A4', 'Letter']))
    .addOption(new Option('--language <CODE>', 'language (what the lab chose unless given)').choices(['en', 'de']))
    .option('--zone <NAME>', 'time zone of the dates, as Europe/Vienna (what the lab chose unless given)')
    .addOption(
      new Option('--unknown-age <HOW>', 'how somebody without a birth date is reported').choices([
        'as-minor',
        'as-adult',
      ]),
    )
    .option('--out <PATH>', 'a file by its ending, or a folder', '.')
    .option('--overwrite', 'replace files that exist')
    .option('--json', 'print what was written as JSON')
    .addHelpText(
      'after',
      '\nExamples:\n  sthene report athlete --example --person FW10\n  sthene report athlete --example --squad Juniors --out pages --language de\n  sthene report reliability --test imtp --as xlsx --out reliability.xlsx',
    )
    .action(async (kind: ReportKind, options: ReportOptions) => {
      const many =
        kind === 'athlete' &&
        options.person === undefined &&
        (options.squad !== undefined || options.everybody === true);
      const written = many ? await batch(options, terminal) : { files: [await one(kind, options)], failed: [] };
      terminal.out(said(written, options.json === true));
      finish(written.failed.length > 0 ? exitCodes.inputInvalid : exitCodes.done);
    });
}

async function one(kind: ReportKind, options: ReportOptions): Promise<string> {
  const file = await inLab(options, (lab) => lab.report(kind, queryOf(options)));
  const named = extname(options.out) === `.${options.as}`;
  if (!named && /^\.(pdf|html|xlsx|csv|svg|png)$/.test(extname(options.out)))
    throw new Failure(
      'report-format-differs',
      `"${options.out}" ends otherwise than --as ${options.as}.`,
      'Let both name the same format.',
      exitCodes.usage,
    );
  const [folder, name] = named ? [dirname(options.out), basename(options.out)] : [options.out, file.name];
  return writeOut(folder, name, file.bytes, options.overwrite === true);
}

function said({ files, failed }: Written, json: boolean): string {
  if (json) return `${JSON.stringify({ schema: 'sthene.report/1', files, failed }, null, 2)}\n`;
  return files.map((file) => `${file}\n`).join('');
}
