import { readFile } from 'node:fs/promises';
import {
  type PersonDecision,
  type ReceivedOutcome,
  type ReceivedRequest,
  resultsMapping,
  type TablePreview,
} from '@sthene/contract';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';

export interface ResultsOptions {
  readonly methodLabel?: string;
  readonly test?: string;
  readonly mapping?: string;
  readonly sheet?: string;
  readonly dayOrder?: string;
  readonly decimal?: string;
  readonly people?: string;
  readonly createUnknown?: boolean;
  readonly keepDuplicates?: boolean;
  readonly by: string;
}

type Chosen = Omit<ReceivedRequest, 'upload' | 'people'>;

/** What the options choose; the files they name are read first. */
export async function chosenFrom(
  options: ResultsOptions,
): Promise<{ choose: (preview: TablePreview) => Chosen; people: ReadonlyMap<string, string> }> {
  const { dayOrder, decimal } = options;
  if (dayOrder !== undefined && !['ymd', 'dmy', 'mdy'].includes(dayOrder))
    throw usage('day-order-unknown', `"${dayOrder}" is no order of a day.`, 'Use ymd, dmy or mdy.');
  if (decimal !== undefined && decimal !== '.' && decimal !== ',')
    throw usage('decimal-unknown', `"${decimal}" is no decimal sign.`, 'Use "." or ",".');
  const given = options.mapping === undefined ? undefined : resultsMapping.safeParse(await jsonAt(options.mapping));
  if (given?.success === false)
    throw new Failure(
      'mapping-invalid',
      `The mapping does not fit: ${given.error.issues[0]?.path.join('.') ?? ''}: ${given.error.issues[0]?.message ?? ''}.`,
      'Print one to change with --dry-run --json, and keep what stands under "mapping".',
      exitCodes.inputInvalid,
    );
  const people = options.people === undefined ? {} : await jsonAt(options.people);
  const choose = (preview: TablePreview): Chosen => {
    const rest = {
      onDuplicate: options.keepDuplicates ? ('keep' as const) : ('skip' as const),
      by: options.by,
      ...(options.test === undefined ? {} : { test: options.test }),
      ...(options.methodLabel === undefined ? {} : { methodLabel: options.methodLabel }),
    };
    if (preview.kind === 'exchange') return rest;
    const [question] = preview.questions.filter(
      (one) => given === undefined && (one === 'day-order' ? dayOrder : decimal) === undefined,
    );
    if (question !== undefined) throw open[question]();
    return {
      ...rest,
      mapping: {
        ...(given?.data ?? preview.mapping),
        ...(dayOrder === undefined ? {} : { dayOrder: dayOrder as 'ymd' }),
        ...(decimal === undefined ? {} : { decimal: decimal as '.' }),
      },
    };
  };
  return { choose, people: new Map(Object.entries(people as Record<string, string>)) };
}

const usage = (code: string, message: string, next: string) => new Failure(code, message, next, exitCodes.usage);

const open = {
  'day-order': () =>
    new Failure(
      'received-day-order-open',
      'The days can be read as day first or as month first, and nothing tells which.',
      'Say it with --day-order dmy or --day-order mdy.',
      exitCodes.inputInvalid,
    ),
  decimal: () =>
    new Failure(
      'received-decimal-open',
      'A number like 2,481 can be two thousand or two and a half, and nothing tells which.',
      'Say it with --decimal "." or --decimal ",".',
      exitCodes.inputInvalid,
    ),
} as const;

async function jsonAt(path: string): Promise<unknown> {
  try {
    return JSON.parse((await readFile(path, 'utf8')).replace(/^\uFEFF/, ''));
  } catch (error) {
    throw new Failure(
      'file-not-json',
      `"${path}" is not a JSON document that can be read: ${(error as Error).message}.`,
      'Check the file.',
      exitCodes.inputInvalid,
    );
  }
}

/** Takes sure matches as they are, what the file of people says, and with the option everybody who is unknown. */
export async function decidePeople(
  people: ReceivedOutcome['people'],
  said: ReadonlyMap<string, string>,
  options: Pick<ResultsOptions, 'createUnknown'>,
  idOf: (code: string) => Promise<string | undefined>,
): Promise<PersonDecision[]> {
  const decisions: PersonDecision[] = [];
  for (const { key, said: name, code = '', match, candidates, draft } of people) {
    const chosen = said.get(name) ?? said.get(code);
    const sure = match === 'sure' ? candidates[0]?.id : undefined;
    if (chosen === '') decisions.push({ key, skip: true });
    else if (chosen === 'new' || (chosen === undefined && match === 'unknown' && options.createUnknown))
      decisions.push({ key, create: draft });
    else if (chosen !== undefined) {
      const id = await idOf(chosen);
      if (id === undefined)
        throw new Failure(
          'athlete-unknown',
          `Nobody in the lab has the code "${chosen}".`,
          'Use a code of the lab, "new", or "" to leave somebody out.',
          exitCodes.inputInvalid,
        );
      decisions.push({ key, id });
    } else if (sure !== undefined) decisions.push({ key, id: sure });
  }
  return decisions;
}
