import { sourceWords } from './source.ts';

const count = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;

/** Words of the rig and of the description of its sources. */
export const rigWords = {
  title: 'Rigs',
  lead: 'A rig is one set of plates with its bar. Here you see whether it measures.',
  back: 'Rigs',
  cancel: 'Cancel',
  saved: 'Saved.',
  states: {
    closed: 'Closed',
    starting: 'Starting',
    measuring: 'Measuring',
    quiet: 'Quiet',
    lost: 'Device lost',
    faulty: 'Faulty',
  },
  offline: 'The station does not answer. What stands here is old; trying again.',
  empty: {
    title: 'No rig yet',
    text: 'Connect a source first: the device or file the forces come from. Then form a rig of it. For a look around, virtual plates need no device.',
  },
  virtual: {
    act: 'Use virtual plates',
    another: 'Add a second virtual rig',
    second: 'Second virtual rig',
    help: 'Simulated plates with simulated athletes. What they measure is marked as simulated and belongs to the example.',
    name: 'Virtual plates',
    rig: 'Virtual rig',
    ready: 'The virtual plates are running.',
  },
  acts: {
    connect: 'Connect a source',
    setUp: 'Set up a rig',
    open: 'Open the rig',
    close: 'Close the rig',
    change: 'Change',
    changeClosed: 'A rig is changed while it is closed.',
    keep: 'Keep the last 30 s',
    kept: (name: string) => `Kept as ${name}.`,
    floor: 'Floor',
    wall: 'Wall',
  },
  sources: {
    title: 'Sources',
    none: 'No source is described yet.',
    edit: (name: string) => `Change ${name}`,
    kinds: {
      serial: 'Serial port',
      tcp: 'TCP',
      udp: 'UDP',
      folder: 'Watched folder',
      replay: 'Replay of a recording',
      virtual: 'Virtual plates',
    },
  },
  parts: {
    title: 'Sources of this rig',
    history: 'History',
    revision: (number: number, by: string) => `Version ${number}, by ${by}`,
    first: 'As it was first described.',
    changed: (what: string) => `Changed: ${what}.`,
    same: 'Nothing that counts was changed.',
    fields: {
      name: 'name',
      transport: 'how it comes in',
      layout: 'layout',
      channels: 'channels',
      rate: 'promised rate',
      notes: 'notes',
    },
  },
  trouble: {
    title: 'Let something go wrong',
    mark: 'Virtual plates: a demonstration',
    help: 'See how each trouble is caught. It begins at once, on this rig only; real plates never offer this.',
    begun: (what: string) => `${what}: begun.`,
    acts: {
      lost: 'Lose 40 samples',
      doubled: 'Send 3 packets twice',
      late: 'Send 40 samples too late',
      swapped: 'Swap two packets',
      'counter-wrap': 'Let the packet counter begin again at 0',
      stall: 'Fall silent for 2 s',
      unplug: 'Pull the plug for 4 s',
      saturation: 'Right plate at its limit for 3 s',
      drift: 'Let the left zero wander by 12 N',
      'wrong-rate': 'Run at 980 Hz',
      'right-rate': 'Run at 1000 Hz again',
    },
    /** Where to look. */
    look: {
      lost: 'Gaps and faults counts one gap more, and 40 missing.',
      doubled: 'Gaps and faults counts 3 doubled; nothing is missing.',
      late: 'Gaps and faults counts 40 missing and 2 late packets.',
      swapped: 'Gaps and faults counts one packet out of order; nothing is missing.',
      'counter-wrap': 'Nothing: the counter is read across its end, and no sample is missing.',
      stall: 'The state becomes Quiet within half a second; then a gap of 2000 samples.',
      unplug: 'The state becomes Device lost; then it returns by itself with a gap of 4000 samples.',
      saturation: 'Range says which plate, and so does its channel.',
      drift: 'Zero says how far the empty plate has moved, once a zero was taken.',
      'wrong-rate': 'Rate tells the measured rate after some seconds, and warns.',
      'right-rate': 'Rate comes back slowly: it is measured over 30 s.',
    },
  },
  form: {
    title: 'Set up a rig',
    changeTitle: 'Change the rig',
    name: 'Name',
    nameHint: 'Rack by the window',
    letter: 'Letter',
    shape: 'Shape',
    shapes: { circle: 'Circle', square: 'Square', triangle: 'Triangle', diamond: 'Diamond' },
    sources: 'Sources',
    sourcesHelp: 'One source for the whole rig, or one for each plate.',
    notes: 'Notes',
    act: 'Keep the rig',
    needs: 'A rig needs a name, a letter and at least one source.',
  },
  check: {
    title: 'Do the plates measure?',
    none: 'not yet',
    standings: { good: 'Good', look: 'Look at it', bad: 'Do not test', open: 'Not known yet' },
    titles: {
      state: 'State',
      device: 'Device',
      rate: 'Rate',
      noise: 'Noise at rest',
      zero: 'Zero',
      range: 'Range',
      counts: 'Gaps and faults',
      confirmed: 'Safe on disk',
      disk: 'Room on the disk',
      clock: 'Clock',
      'known-mass': 'Known masses',
    },
    promised: (rate: string) => `${rate}\u00a0Hz promised`,
    rateNotYet: 'It is measured in the first seconds after the rig is opened.',
    rateAgrees: (rate: string) => `Agrees with the promised ${rate}\u00a0Hz.`,
    rateDiffers: (rate: string) =>
      `More than 0.5 % from the promised ${rate}\u00a0Hz. Times follow the measured rate; correct the description if it is wrong.`,
    noiseNotYet: 'It is measured while nobody stands on the plates.',
    noiseOf: (name: string) => `SD of one second, unloaded; the noisiest channel is ${name}.`,
    noiseNow: (name: string) =>
      `SD of the last second; the noisiest channel is ${name}. Leave the plates empty and untouched to judge it.`,
    noiseLoud: (limit: string) =>
      `Above the ${limit}\u00a0N that zeroing allows. Look for vibration, a loose cable or a plate that touches the frame.`,
    noiseMains: (name: string, frequency: number, amplitude: string) =>
      `${name} carries ${amplitude} of mains hum at ${frequency}\u00a0Hz: look at grounding and cables.`,
    deviceNotYet: 'It is known once the rig is open.',
    deviceUnknown: 'This device tells no serial number or address.',
    deviceKnown: 'Serial number or address. Another device in its place is told, not recorded.',
    lastSample: (age: string) => `for ${age}`,
    zeroMoved: (force: string) => `The empty plates read ${force} beside their zero now. Take the zero again.`,
    zeroHolds: (force: string) => `It holds: the empty plates read ${force} beside it now.`,
    rangeNotYet: 'It is known while samples come.',
    rangeUnknown: 'The description names no lowest and highest raw value, so a plate at its limit cannot be told.',
    rangeFree: 'free',
    rangeFreeWords: 'No channel stands at the end of its range.',
    rangeFull: 'at its limit',
    rangeFullNext: (names: string) =>
      `${names}: the plate gives its largest or smallest value. Unload it; if it stays, look at plug and amplifier.`,
    countsNotYet: 'They are counted from the opening of the rig.',
    countsValue: (gaps: number, faults: number) => `${count(gaps, 'gap', 'gaps')}, ${count(faults, 'fault', 'faults')}`,
    countsGood: (samples: string) => `${samples} samples, none missing, none damaged.`,
    confirmedNotYet: 'It is known while the rig is open.',
    confirmedGood: 'Age of the newest sample that is safe on the disk.',
    confirmedLate: 'Samples are not getting to the disk. Stop testing until they do; see the disk and its cable.',
    diskNotYet: 'The forecast follows the measured rate once the rig is open.',
    diskRate: (rate: string) => `At ${rate}\u00a0kB a second.`,
    diskFull: 'Make room before you go on.',
    evidence: { good: 'Tied', old: 'Old', none: 'None' },
    knownMass:
      'The check with known masses is not in this version yet. Until it is, check your plates as your lab does, and keep that record.',
  },
  counts: {
    /** What went wrong, in words; a sentence also where nothing did. */
    words: (c: {
      missing: number;
      doubled: number;
      late: number;
      swapped: number;
      checksum: number;
      unreadable: number;
    }) => {
      const all = [
        [c.missing, 'missing'],
        [c.doubled, 'doubled'],
        [c.late, 'late'],
        [c.swapped, 'out of order'],
        [c.checksum, 'with a wrong checksum'],
        [c.unreadable, 'unreadable'],
      ] as const;
      const told = all.filter(([n]) => n > 0).map(([n, what]) => `${n} ${what}`);
      return told.length === 0 ? 'Nothing.' : `${told.join(', ')}.`;
    },
    kept: 'Gaps are kept as gaps.',
  },
  channels: {
    title: 'Channels',
    none: 'Channels are known once the rig has been opened.',
    head: { name: 'Channel', side: 'Side', now: 'Now', zero: 'Zero', noise: 'Noise' },
    saturated: 'at its limit',
    mains: (frequency: number, amplitude: string) => `${amplitude} at ${frequency}\u00a0Hz`,
    help: 'Now: the zero is taken off once there is one. Noise: SD of a second.',
    sides: { left: 'L', right: 'R', none: '' },
    sideWords: { left: 'left', right: 'right', none: 'no side' },
  },
  live: {
    title: 'Force now',
    total: 'Total',
    left: 'Left',
    right: 'Right',
    summary: (total: string) => `Force now: ${total}`,
    none: 'No forces arrive.',
    closed: 'Open the rig to see forces.',
  },
  ...sourceWords,
};
