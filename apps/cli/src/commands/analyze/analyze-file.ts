import {
  analyse,
  forcesOf,
  type JumpMethod,
  type Method,
  type Protocol,
  type Recording,
  reasons,
  type TrialResult,
  unitOfForces,
} from '@sthene/core';
import type { NamedRecording } from '@sthene/formats';
import { hashFile } from '../../files/file-source.ts';
import { columnNamer, readFile } from '../../files/read.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import type { AnalyzeOptions } from './options.ts';
import { selectForces } from './selection.ts';

/** One analysed recording of a file. */
export interface AnalysedRecording {
  readonly file: string;
  readonly sha256: string;
  readonly label: string;
  readonly recording: Recording;
  readonly trials: readonly TrialResult[];
  readonly notices: readonly { readonly code: string; readonly message: string }[];
}

/** How trials are judged; a jump test uses its jump method alone. */
export interface Recipes {
  readonly method: Method;
  readonly jumpMethod?: JumpMethod;
}

const jumpSetupOf = ({ boxHeight, load }: AnalyzeOptions) => ({
  ...(boxHeight === undefined ? {} : { boxHeight: boxHeight / 100 }),
  ...(load === undefined ? {} : { load }),
});

/** Reads, selects and analyses every recording of a file. Throws a Failure that names what to do. */
export async function analyseFile(
  path: string,
  protocol: Protocol,
  recipes: Recipes,
  options: AnalyzeOptions,
): Promise<AnalysedRecording[]> {
  const file = await readFile(path, options);
  const sha256 = await hashFile(path);
  const columnName = await columnNamer(path, file.format, options);
  return file.recordings.map((named) => ({
    file: path,
    sha256,
    label: named.label,
    recording: named.recording,
    ...analyseRecording(named, protocol, recipes, options, columnName),
  }));
}

function analyseRecording(
  { recording }: NamedRecording,
  protocol: Protocol,
  recipes: Recipes,
  options: AnalyzeOptions,
  columnName: (column: string) => string | undefined,
) {
  const selection = selectForces(recording, options, columnName);
  const forces = forcesOf(recording, selection, unitOfForces(recording, selection, protocol));
  if (!forces.ok) {
    const words = reasons[forces.reason];
    throw new Failure(forces.reason, words.means, words.next, exitCodes.inputInvalid);
  }
  const { sampleRate, sampleCount } = forces.value;
  const start = Math.min(sampleCount, Math.max(0, Math.ceil((options.from ?? 0) * sampleRate - 1e-6)));
  const end =
    options.to === undefined ? sampleCount : Math.min(sampleCount, Math.floor(options.to * sampleRate + 1e-6) + 1);
  if (end <= start)
    throw new Failure(
      'span-empty',
      'There are no samples between --from and --to.',
      `The recording lasts ${(sampleCount / sampleRate).toFixed(3)} s.`,
      exitCodes.usage,
    );
  const chosen = options.from !== undefined || options.to !== undefined;
  const analysis = analyse({
    forces: forces.value,
    protocol,
    ...recipes,
    ...(protocol.jump === undefined ? {} : { jumpSetup: jumpSetupOf(options) }),
    gravity: options.gravity,
    efforts: options.efforts,
    ...(options.bodyWeight === undefined ? {} : { bodyWeight: { value: options.bodyWeight, from: 'given' as const } }),
    ...(chosen ? { span: { start, end } } : {}),
    ...(options.cue === undefined ? {} : { cue: options.cue * sampleRate }),
  });
  return { trials: analysis.trials, notices: [...recording.notices, ...analysis.notices] };
}
