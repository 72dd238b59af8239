import {
  type ForceInput,
  type ForceSelection,
  parseUnit,
  proposeForces,
  type Recording,
  type Side,
} from '@sthene/core';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import type { AnalyzeOptions } from './options.ts';

type Chosen = Pick<
  AnalyzeOptions,
  'left' | 'right' | 'total' | 'leftPlate' | 'rightPlate' | 'unit' | 'newtonsPerUnit' | 'zero' | 'flip'
>;

/**
 * The forces of a recording: those the options name, else those that recognise themselves. `columnName` turns a
 * header cell or a 1-based column number of the file into a channel name. A channel named by hand keeps the unit and sign it was recognised with
 * unless the options say otherwise.
 */
export function selectForces(
  recording: Recording,
  options: Chosen,
  columnName: (column: string) => string | undefined,
): ForceSelection {
  const proposal = proposeForces(recording);
  const named: ForceInput[] = [];
  const add = (part: Side | 'total', from: ForceInput['from']) => {
    const known = proposal.candidates.find(
      (one) => one.input.from.kind === from.kind && one.input.from.index === from.index,
    )?.input;
    named.push({ ...known, from, part });
  };
  for (const part of ['left', 'right', 'total'] as const) {
    const column = options[part];
    if (column !== undefined) add(part, { kind: 'channel', index: findChannel(recording, column, columnName) });
  }
  if (options.leftPlate !== undefined) add('left', findPlate(recording, options.leftPlate));
  if (options.rightPlate !== undefined) add('right', findPlate(recording, options.rightPlate));
  const inputs =
    named.length > 0
      ? named
      : (proposal.selection?.inputs ??
        inputsAmong(
          proposal.candidates.map((one) => one.input),
          options,
        ));
  if (inputs.length === 0) {
    const why = proposal.reasons.at(-1)?.message ?? 'No channel is known to be a force.';
    throw new Failure(
      'no-force-channel',
      why,
      `Name the columns with --left and --right, or --total. This file has: ${
        recording.channels
          .slice(0, 12)
          .map((one) => one.name)
          .join(', ') || 'no channels'
      }.`,
      exitCodes.inputInvalid,
    );
  }
  return { inputs: inputs.map((input) => adjusted(input, options)) };
}

/** Voltages are only taken when a gain was given: then the candidates with a side stand for themselves. */
function inputsAmong(candidates: readonly ForceInput[], options: Chosen): readonly ForceInput[] {
  if (options.newtonsPerUnit === undefined && options.unit === undefined) return [];
  return candidates.length === 1 ? candidates.map((one) => ({ ...one, part: 'total' })) : candidates;
}

function adjusted(input: ForceInput, options: Chosen): ForceInput {
  let unit = input.unit;
  if (options.unit !== undefined) {
    unit = parseUnit(options.unit)?.code;
    if (unit === undefined)
      throw new Failure(
        'unit-unknown',
        `"${options.unit}" is not a unit known here.`,
        'Use N, kN, mN, kgf, lbf, N.m, or V with --newtons-per-unit.',
        exitCodes.usage,
      );
  }
  const sign = options.flip ? (input.sign === -1 ? 1 : -1) : input.sign;
  return {
    from: input.from,
    part: input.part,
    ...(unit === undefined ? {} : { unit }),
    ...(sign === undefined ? {} : { sign }),
    ...(options.newtonsPerUnit === undefined ? {} : { newtonsPerUnit: options.newtonsPerUnit }),
    ...(options.zero === undefined ? {} : { zero: options.zero }),
  };
}

function findChannel(recording: Recording, column: string, columnName: (column: string) => string | undefined): number {
  const exact = recording.channels.findIndex((one) => one.name === column);
  if (exact >= 0) return exact;
  const folded = recording.channels.findIndex((one) => one.name.toLowerCase() === column.toLowerCase());
  if (folded >= 0) return folded;
  const name = columnName(column);
  if (name !== undefined) {
    const named = recording.channels.findIndex((one) => one.name === name);
    if (named >= 0) return named;
  } else if (/^\d+$/.test(column) && recording.channels[Number(column) - 1] !== undefined) {
    // a text file counts its columns, the time column included; other formats number their channels
    return Number(column) - 1;
  }
  throw new Failure(
    'column-not-found',
    `There is no column "${column}".`,
    `This file has: ${recording.channels
      .slice(0, 12)
      .map((one) => one.name)
      .join(', ')}${recording.channels.length > 12 ? ', ...' : ''}.`,
    exitCodes.inputInvalid,
  );
}

function findPlate(recording: Recording, number: number): ForceInput['from'] {
  if (recording.platforms[number - 1] === undefined) {
    throw new Failure(
      'plate-not-found',
      `There is no force platform ${number}.`,
      `This file describes ${recording.platforms.length} force platforms.`,
      exitCodes.inputInvalid,
    );
  }
  return { kind: 'platform', index: number - 1 };
}
