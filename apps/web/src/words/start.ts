import { count } from './count.ts';

/** Words of the start screen and the guide. */
export const startWords = {
  title: 'What now?',
  lead: 'From a few seconds of pulling to a number you can defend. Everything stays on this computer.',
  figure: 'A simulated pull with its onset and peak',
  figureNote: 'simulated pull, judged by the default method',
  example: {
    title: 'Try the example squad',
    text: 'Fernwater, an invented rowing club on virtual plates: run a whole test day with three athletes, no device needed. Or look at its 12 athletes over three seasons. Kept apart from your data.',
    practice: 'Run a practice day',
    act: 'Look at the three seasons',
    finish: 'Finish building the example',
    building: 'Building the example',
    progress: (done: number, total: number) => `${done} of ${total} sessions`,
    begins: 'The first sessions are on their way',
    buildingNote:
      'Each of its recordings is written and analysed as an imported one would be. You may leave this page.',
    unknown: (name: string) => `There is no example named "${name}". The one there is: fernwater.`,
  },
  lab: {
    title: 'Set up my lab',
    text: 'A name is all it needs. It gets a data folder of its own.',
    name: 'Name of the lab',
    preset: 'My lab',
    act: 'Set up',
    ready: (name: string) => `${name} is set up`,
  },
  import: {
    title: 'Import files',
    text: 'CSV and other text tables, C3D, Parquet. Dropped, understood, shown, then imported.',
    act: 'Import files',
  },
  guide: {
    title: 'Read the guide',
    text: 'From a file to an explained peak force, a test day, and what the verdicts mean.',
    act: 'Read the guide',
  },
  labs: {
    title: 'Your data',
    counts: (people: number, sessions: number, trials: number) =>
      `${count(people, 'athlete', 'athletes')}, ${count(sessions, 'session', 'sessions')}, ${count(trials, 'trial', 'trials')}`,
    folder: 'Data folder',
    copy: 'Copy the path',
    copied: 'The path is on the clipboard.',
    sessions: 'All sessions',
    plan: 'Test days',
    practice: 'Run a practice day',
    last: 'Last sessions',
    none: 'No sessions yet. They appear here once files are imported.',
  },
  plates: {
    title: 'Plate check due',
    rig: (letter: string, name: string) => `Rig ${letter}, ${name}`,
    failed: (day: string) => `failed on ${day}`,
    overdue: (day: string) => `due since ${day}`,
    soon: (day: string) => `due soon: ${day}`,
    never: 'not checked yet',
    noneCounts: 'no check that counts',
  },
  today: {
    status: (open: boolean, today: boolean) => (open ? 'Under way' : today ? 'Today' : 'Next'),
    counts: (people: number, trials: number) =>
      `${count(people, 'athlete', 'athletes')}${trials > 0 ? `, ${count(trials, 'trial', 'trials')} so far` : ''}`,
    stillOpen: 'This day was never closed. Go on with it, or close it there.',
    goOn: 'Go on with this day',
    look: 'To this day',
  },
  unfinished: {
    title: 'Unfinished',
    text: 'Sent to this station but not imported yet.',
    go: 'Go on',
    goOn: (name: string) => `Go on with ${name}`,
    all: (n: number) => `Show all ${n}`,
    fewer: 'Show fewer',
    forget: 'Forget',
    forgetIt: (name: string) => `Forget ${name}`,
    forgotten: (name: string) => `${name} is taken off the list. Your own copy is untouched.`,
  },
  cautions: { title: 'Before any maximal effort' },
  guidePage: {
    title: 'Guide',
    lead: 'Ten minutes with your own file, or with the example squad.',
    back: 'Back to the start',
    sections: [
      {
        title: 'From a file to an explained peak force',
        steps: [
          'Open Import and drop a file: a text table with one row per sample, a C3D or a Parquet file.',
          'The station says what it understood and why: which columns are forces, which side, which unit, which rate. Change what is wrong; you can go one step back at any time.',
          'Name the athlete. A dry run shows every trial with its verdict and its peak force before anything is stored.',
          'Import, then open the trial. Click any value: it shows its formula, its window, its source and the piece of curve it came from.',
        ],
      },
      {
        title: 'A file that needs no question',
        steps: [
          'Columns named time_s, left_n and right_n (or total_n) are understood without asking: seconds and newtons, one row per sample.',
          'A mapping you make for other columns can be kept under a name. It is used again as soon as a file with the same header comes.',
        ],
      },
      {
        title: 'A test day',
        steps: [
          'Run a practice day from the start screen: invented athletes on virtual plates follow what the Floor says. Nothing of your own is touched.',
          'For your own plates open Rig: it listens to the line, shows the bytes and what they mean while you describe them, and keeps the description as a file.',
          'Open Day, choose athletes, protocol and rigs, ask the readiness questions and begin. Who may not pull, and why, stands beside the name.',
          'On the Floor one large button, the space bar or a presenter clicker goes on to the next step. Stop is always there: the red button, or Escape.',
          'Open Wall on the screen that the athletes see. It shows no body weight and goes blank on command.',
          'Every sample is on the disk a tenth of a second later. After a power cut start the station again: the day goes on where it was.',
        ],
      },
      {
        title: 'What the verdicts mean',
        steps: [
          'Counts: the checks found nothing against the trial.',
          'Look again: something is doubtful. It counts once a person has looked and says so.',
          'Repeat: the trial should be pulled again while the athlete is still there.',
          'Nothing is deleted. An excluded trial stays visible, with who excluded it and why.',
        ],
      },
      {
        title: 'Where the data are',
        steps: [
          'In the data folder shown on the start screen: each file as it was received, byte for byte, and one database beside it. Nothing is sent anywhere.',
        ],
      },
    ],
  },
};
