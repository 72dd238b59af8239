import type { ReportFrame } from '../input/common.ts';
import type { ReportDocument } from '../model/document.ts';
import { type Dates, datesOf } from '../text/dates.ts';
import { type Numbers, numbersOf } from '../text/numbers.ts';
import { catalogue, type Words } from '../words/index.ts';

/** What every builder writes with. */
export interface Pen {
  readonly frame: ReportFrame;
  readonly words: Words;
  readonly numbers: Numbers;
  readonly dates: Dates;
}

export const penOf = (frame: ReportFrame): Pen => ({
  frame,
  words: catalogue[frame.language],
  numbers: numbersOf(frame.language),
  dates: datesOf(frame.language, frame.zone),
});

/** The date of a report without any data. */
const undated = '1970-01-01T00:00:00.000Z';

/** The newest of some instants. */
export const newestOf = (instants: readonly string[]): string =>
  instants.reduce((newest, one) => (Date.parse(one) > Date.parse(newest) ? one : newest), undated);

/** A document in the frame of the lab. */
export function documentOf(
  { frame, words }: Pen,
  own: Pick<ReportDocument, 'title' | 'subject' | 'blocks' | 'dated' | 'onePage'> & {
    readonly file: readonly string[];
  },
): ReportDocument {
  const { language, lab, demo, software } = frame;
  return {
    ...own,
    language,
    lab,
    ...(demo ? { banner: words.common.demo } : {}),
    foot: words.common.foot(software),
    file: own.file.map(fileWord).filter(Boolean).join('-'),
  };
}

/** A word of a file name that every system takes. */
const fileWord = (text: string): string =>
  text
    .replace(/ß/g, 'ss')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60);
