import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take half a minute or more each, longest first. */
const long = [
  'browser/start-to-trial.test',
  'torture/torture.test',
  'live/wires.test',
  'live/kill.test',
  'browser/film.test',
  'browser/floor.test',
  'browser/devices.test',
  'browser/battery-day.test',
  'browser/follow.test',
  'browser/ratios.test',
  'browser/check-plates.test',
  'reference/equality.test',
];

/** Projects whose files wait most come first, so that those which only compute fill in at the end. */
const projects = ['browser', 'station', 'wires', 'store', 'pure'];

/** Begins with the longest files, so that none of them runs alone at the end while the other workers have nothing to do. */
export class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId, project }: TestSpecification): number => {
      const found = long.findIndex((name) => moduleId.includes(name));
      return found === -1 ? long.length + projects.indexOf(project.name) : found;
    };
    return (await super.sort(files)).sort((a, b) => place(a) - place(b));
  }
}
