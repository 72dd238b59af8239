import { application } from '@sthene/contract';
import { dataFolder } from './data-folder.ts';
import { Labs } from './labs/labs.ts';
import type { ReadLabOptions } from './read-lab.ts';
import { type BringIn, bringIn } from './work/received/bring-in.ts';
import { exchangeLines } from './work/received/exchange.ts';

/** A lab of a data folder, for bringing results in and taking them all out; a station may run beside it. */
export interface LabWriter {
  bringIn(given: BringIn): ReturnType<typeof bringIn>;
  /** The exchange file, piece by piece. */
  exchange(asked: { readonly names: boolean }): AsyncGenerator<string>;
  /** Id of an athlete by code. */
  personByCode(code: string): Promise<string | undefined>;
  close(): Promise<void>;
}

/** Opens a lab that is there. Throws a refusal with `lab-missing` where it was never set up. */
export async function writeLab(options: ReadLabOptions = {}): Promise<LabWriter> {
  const database = options.database ?? process.env.STHENE_DATABASE;
  const labs = new Labs({
    data: dataFolder(options.data),
    application,
    ...(database === undefined ? {} : { database }),
  });
  const lab = await labs.open(options.lab ?? 'lab');
  return {
    bringIn: (given) => bringIn(lab, given),
    exchange: (asked) => exchangeLines(lab, asked),
    personByCode: async (code) => (await lab.store.people.byCode(code))?.id,
    close: () => labs.close(),
  };
}
