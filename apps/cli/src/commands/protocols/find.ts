import { builtInProtocols, type ProtocolDocument, protocolReference } from '@sthene/core';
import { inLab, type LabOptions } from '../../files/open-lab.ts';
import { exitCodes } from '../../terminal/exit-codes.ts';
import { Failure } from '../../terminal/failure.ts';

/** A protocol that can be named on the command line. */
export interface Known {
  /** Short id of a built-in one, id of one of the lab. */
  readonly id: string;
  readonly builtIn: boolean;
  readonly archived: boolean;
  /** Newest first. */
  readonly versions: readonly ProtocolDocument[];
}

const builtIn = (): Known[] =>
  builtInProtocols.all.map(({ id, document }) => ({ id, builtIn: true, archived: false, versions: [document] }));

/** The built-in protocols and those of the lab; of a lab that was never set up there are none. */
export async function knownProtocols(options: LabOptions): Promise<Known[]> {
  try {
    return [...builtIn(), ...(await inLab(options, (lab) => lab.protocols()))];
  } catch (error) {
    if (error instanceof Failure && error.code === 'lab-missing') return builtIn();
    throw error;
  }
}

/** A version by short id, name, id or hash (its beginning will do); the newest where no version is named. */
export async function protocolNamed(
  name: string,
  options: LabOptions & { readonly number?: number },
): Promise<ProtocolDocument> {
  const short = builtInProtocols.get(name)?.document;
  const known = short === undefined ? await knownProtocols(options) : [];
  const wanted = name.trim().toLowerCase();
  const hashed = (document: ProtocolDocument) =>
    /^[\da-f]{8,64}$/.test(wanted) && protocolReference(document).sha256.startsWith(wanted);
  const exact = known.flatMap(({ versions }) => versions).find(hashed);
  const found = known.find(({ id, versions }) => id === name || versions[0]?.name.toLowerCase() === wanted);
  const versions = short === undefined ? (found?.versions ?? []) : [short];
  const document =
    exact ?? (options.number === undefined ? versions[0] : versions.find((one) => one.version === options.number));
  if (document !== undefined) return document;
  throw new Failure(
    versions.length > 0 ? 'protocol-version-unknown' : 'protocol-unknown',
    versions.length > 0
      ? `"${name}" has no version ${options.number}.`
      : `There is no protocol "${name}", neither built in nor in the lab.`,
    'See "sthene protocols list".',
    exitCodes.nothingFound,
  );
}
