import { type AnyMethod, type Forces, isJumpMethod, methodReference, type Recording } from '@sthene/core';
import type { NamedRecording } from '@sthene/formats';
import { resultText, StoreError } from '@sthene/store';
import { problems } from '../../../server/problem-error.ts';
import { analysisOf, versionsOf } from '../../analysis-of.ts';
import { forcesFrom } from '../../forces-from.ts';
import { recordingNamed, recordingsFrom } from '../../recordings-from.ts';
import { faultOfTrial } from './fault.ts';
import type { JudgingOrder, Made, OrderedTrial } from './order.ts';

/** The bytes of a kept file, proven by its hash; undefined where there is none. */
export type BytesOf = (sha256: string) => Promise<Uint8Array | undefined> | Uint8Array | undefined;

/** Judges orders one after the other, in whatever thread. */
export interface OrderJudge {
  /**
   * What became of each trial, in their order. A fault that is not a trial's is thrown.
   *
   * @param breath waited for before each trial, so that others come first
   */
  judge(order: JudgingOrder, breath: () => Promise<void> | undefined): Promise<Made[]>;
}

/** Keeps what the next trial often needs too: the file read last, its forces, and the methods seen. */
export function orderJudge(bytesOf: BytesOf): OrderJudge {
  const read = lastFile(bytesOf);
  const forces = lastForces();
  // A recipe is known by its object; copies that came with later orders would be hashed and planned again.
  const recipes = new Map<string, AnyMethod>();
  const recipeOf = ({ method, jumpMethod, sha256 }: OrderedTrial) => {
    const known = recipes.get(sha256) ?? jumpMethod ?? method;
    recipes.set(sha256, known);
    return isJumpMethod(known) ? { method, jumpMethod: known } : { method: known };
  };
  return {
    async judge(order, breath) {
      const made: Made[] = [];
      for (const one of order.trials) {
        await breath();
        try {
          const recording = recordingNamed(await read(order), one.trial.recordingLabel ?? '');
          const document = analysisOf(forces(recording, one), { ...one, ...recipeOf(one) });
          made.push({ text: resultText(document, versionsOf(document)) });
        } catch (error) {
          made.push(faultOfTrial(error));
        }
      }
      return made;
    },
  };
}

function lastFile(bytesOf: BytesOf): (order: JudgingOrder) => Promise<readonly NamedRecording[]> {
  let key = '';
  let recordings: readonly NamedRecording[] = [];
  return async ({ recording, file, reading }) => {
    const asked = `${recording} ${JSON.stringify(reading)}`;
    if (asked === key) return recordings;
    if (file === undefined) throw problems.notFound('recording');
    const bytes = await bytesOf(recording);
    if (bytes === undefined)
      throw new StoreError('file-damaged', 'The file of this recording is missing from the recordings folder.', {
        sha256: recording,
        missing: true,
      });
    key = '';
    recordings = await recordingsFrom(bytes, file, reading);
    key = asked;
    return recordings;
  };
}

/** Several efforts of one recording have the same forces; nothing that is computed from them changes them. */
function lastForces(): (recording: Recording, one: OrderedTrial) => Forces {
  let [of, key, found] = [undefined as Recording | undefined, '', undefined as Forces | undefined];
  return (recording, { trial, session, live }) => {
    const asked = JSON.stringify([trial.forceSelection, session.protocol.id, live]);
    if (found === undefined || of !== recording || asked !== key) {
      found = undefined;
      found = forcesFrom(recording, trial, session, live);
      [of, key] = [recording, asked];
    }
    return found;
  };
}

/** The method's hash, for an order. */
export const hashOf = (method: AnyMethod): string => methodReference(method).sha256;
