import { application } from '@sthene/contract';
import { packageName, resultRowsOf, WriteRefused, writeDataPackageZip } from '@sthene/formats';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';
import type { AnalysedRecording } from './analyze-file.ts';

/** Curves and results of a batch as one Data Package, ready to be shared: units by UCUM, hashes, a description. */
export async function packageOf(analysed: readonly AnalysedRecording[]): Promise<Uint8Array> {
  const named = withNames(analysed);
  try {
    return await writeDataPackageZip({
      info: {
        name: 'sthene-results',
        title: 'Recordings and results',
        description: `Made by ${application}. Curves as measured, results as analysed.`,
      },
      recordings: named.map(({ name, one }) => ({ name, recording: one.recording })),
      results: named.flatMap(({ name, one }) =>
        one.trials.flatMap((trial, i) => resultRowsOf(one.trials.length > 1 ? `${name}#${i + 1}` : name, trial)),
      ),
    });
  } catch (error) {
    if (!(error instanceof WriteRefused)) throw error;
    throw new Failure(error.error.code, error.error.message, error.error.next, exitCodes.inputInvalid);
  }
}

/** File name and label as a package name, unique by a number where needed. */
function withNames(analysed: readonly AnalysedRecording[]): { name: string; one: AnalysedRecording }[] {
  const taken = new Set<string>();
  return analysed.map((one, i) => {
    const file = one.file.replace(/^.*[\\/]/, '').replace(/\.[^.]*$/, '');
    const wanted = packageName(one.label === '' ? file : `${file}-${one.label}`, `recording-${i + 1}`);
    let name = wanted;
    for (let n = 2; taken.has(name); n++) name = `${wanted}-${n}`;
    taken.add(name);
    return { name, one };
  });
}
