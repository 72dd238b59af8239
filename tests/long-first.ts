import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take a minute or more each, longest first. */
const long = [
  'browser/start-to-trial.test',
  'torture/torture.test',
  'text/conformance.test',
  'store/test/kill.test',
  'reference/span.test',
  'browser/floor.test',
  'live/kill.test',
  'reference/equality.test',
];

/** Begins with the longest files, so that none of them runs alone at the end while the other worker has nothing to do. */
export class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => {
      const found = long.findIndex((name) => moduleId.includes(name));
      return found === -1 ? long.length : found;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
