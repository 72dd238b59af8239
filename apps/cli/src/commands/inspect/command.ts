import type { PathFigures } from '@sthene/core';
import { describeText, detectFormats, type FormatAnswer, formats } from '@sthene/formats';
import { Command } from 'commander';
import { hashFile, openFile } from '../../files/file-source.ts';
import { type ReadingOptions, readFile, textOptions } from '../../files/read.ts';
import type { CommandContext } from '../../program.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import { printable } from '../../terminal/terminal.ts';
import { withReadingOptions } from '../analyze/options.ts';
import { describeRecording, type RecordingDescription } from './describe.ts';

export function inspectCommand(context: CommandContext): Command {
  const command = new Command('inspect')
    .description('Say what is in a file: format, channels, force platforms, and what could be the forces.')
    .argument('<file>', 'a recording of any kind');
  return withReadingOptions(command)
    .option('--json', 'print as JSON')
    .addHelpText('after', '\nExamples:\n  sthene inspect pull.csv\n  sthene inspect squad.c3d --json')
    .action(async (file: string, options: ReadingOptions & { json?: boolean }) =>
      context.finish(await inspect(file, options, context)),
    );
}

async function inspect(path: string, options: ReadingOptions & { json?: boolean }, { terminal }: CommandContext) {
  const source = await openFile(path);
  let answers: FormatAnswer[];
  let reading: readonly string[] = [];
  try {
    answers = await detectFormats(source, formats);
    if (answers[0]?.format.id === 'text') {
      const described = await describeText(source, textOptions(options));
      if (described.ok) reading = described.description.reasons;
    }
  } finally {
    await source.close();
  }
  const candidates = answers.map(({ format, detection }) => ({
    format: format.id,
    match: detection.match,
    reason: detection.reason,
  }));
  let refusal: Failure | undefined;
  let recordings: RecordingDescription[] = [];
  let format = answers[0]?.detection.match === 'no' ? undefined : answers[0]?.format.id;
  try {
    const file = await readFile(path, options);
    format = file.format.id;
    recordings = file.recordings.map((one) => describeRecording(one.label, one.recording));
  } catch (error) {
    if (!(error instanceof Failure)) throw error;
    refusal = error;
  }
  const [first] = recordings;
  if (options.json) {
    const document = {
      schema: 'sthene.inspection/1',
      file: path,
      sha256: await hashFile(path),
      format: format ?? null,
      candidates,
      reading,
      // of the first recording, beside all of them
      ...(first === undefined
        ? {}
        : {
            rate_hz: first.rate_hz,
            samples: first.samples,
            channels: first.channels,
            force_platforms: first.force_platforms,
          }),
      recordings,
      ...(refusal === undefined ? {} : { error: { code: refusal.code, message: refusal.message, next: refusal.next } }),
    };
    terminal.out(`${JSON.stringify(document, null, 2)}\n`);
  } else terminal.out(words(path, format, candidates, reading, recordings));
  if (refusal !== undefined) {
    terminal.err(`sthene: ${refusal.message} [${refusal.code}]\n  ${refusal.next}\n`);
    return exitCodes.inputInvalid;
  }
  return exitCodes.done;
}

function words(
  path: string,
  format: string | undefined,
  candidates: readonly { format: string; match: string; reason: string }[],
  reading: readonly string[],
  recordings: readonly RecordingDescription[],
): string {
  const lines = [`${printable(path)}: ${format ?? 'no format recognises it'}`];
  for (const one of candidates)
    lines.push(`  ${one.format.padEnd(13)} ${one.match.padEnd(8)} ${printable(one.reason)}`);
  for (const reason of reading) lines.push(`  ${printable(reason)}`);
  for (const one of recordings) {
    lines.push(
      '',
      `${one.label ? `${printable(one.label)}: ` : ''}${one.samples} samples at ${one.rate_hz} Hz (${one.rate_from}), ${one.seconds.toFixed(3)} s${one.gaps ? `, ${one.gaps} gaps` : ''}`,
    );
    if (recordings.length <= 3) {
      for (const channel of one.channels.slice(0, 40))
        lines.push(
          `  ${String(channel.number).padStart(3)}  ${printable(channel.name).padEnd(24)} ${channel.unit.padEnd(8)} ${show(channel.min)} ${show(channel.mean)} ${show(channel.max)}`,
        );
      if (one.channels.length > 40) lines.push(`       and ${one.channels.length - 40} more`);
      for (const plate of one.force_platforms) {
        lines.push(
          `  force platform ${plate.number}, type ${plate.type}: vertical force ${show(plate.min)} ${show(plate.mean)} ${show(plate.max)} N${plate.pressed_is ? `, a load is ${plate.pressed_is}` : ''}`,
        );
        if (plate.pressure_mm) lines.push(`    the force acts ${place(plate.pressure_mm)} on the plate`);
        if (plate.pressure_mm?.floor)
          lines.push(`    and ${place(plate.pressure_mm.floor, one.floor_axes)} on the floor`);
      }
      if (one.pressure_mm)
        lines.push(`  all force platforms: the force acts ${place(one.pressure_mm, one.floor_axes)} on the floor`);
    }
    for (const force of one.forces)
      lines.push(`  ${force.chosen ? '*' : ' '} ${force.part.padEnd(6)} ${printable(force.from)}: ${force.reason}`);
    for (const reason of one.reasons) lines.push(`  ${reason}`);
    for (const notice of one.notices) lines.push(`  ${printable(notice.message)} [${notice.code}]`);
  }
  return `${lines.join('\n')}\n`;
}

const place = (
  { mean: [first, second], range: [across, along] }: Pick<PathFigures, 'mean' | 'range'>,
  [a, b]: readonly string[] = ['x', 'y'],
) =>
  `at ${a} ${first.toFixed(1)}, ${b} ${second.toFixed(1)} mm (range ${across.toFixed(1)} and ${along.toFixed(1)} mm)`;

const show = (value: number | undefined): string =>
  (value === undefined ? '-' : value.toFixed(Math.abs(value) < 10 ? 4 : 2)).padStart(12);
