import type { RigQuantity, RigVerdict, Spot, shortfallCodes } from '@sthene/core';

type ShortfallCode = (typeof shortfallCodes)[number];

/** Words of the page of a check with known masses. */
export const plates = {
  title: 'Check of force plates with known masses',
  subject: (letter: string, rig: string) => `Rig ${letter}: ${rig}`,
  verdict: {
    passes: 'Within the limits',
    look: 'Within the limits, with remarks',
    fails: 'Outside the limits',
    incomplete: 'No verdict',
  } satisfies Record<RigVerdict, string> as Record<RigVerdict, string>,
  checkedTo: (force: string) => `checked to ${force}`,
  facts: {
    at: 'Checked',
    by: 'By',
    sources: 'Sources',
    gravity: 'Gravity',
    air: 'Density of the air',
    series: 'Series',
    due: 'Next check due',
    correction: 'Correction in force',
  },
  place: (latitude: string, altitude: string) =>
    `from latitude ${latitude}° and ${altitude} m, formula of European weighing practice`,
  entered: 'entered',
  noCorrection: 'none',
  corrected: (plate: string, share: string) => `${plate} ${share} %`,
  remarks: 'Remarks',
  shortfall: {
    'no-loads': () => 'no load was read',
    'few-loads': (got: string, wanted: string) => `loads read: ${got}, wanted: ${wanted}`,
    'no-way-down': () => 'not read coming down, so sticking cannot be seen',
    'one-series': (_: string, wanted: string) => `one series, wanted: ${wanted}`,
    'few-series': (got: string, wanted: string) => `series: ${got}, wanted: ${wanted}`,
    'masses-unknown': (got: string) => `the masses are known only to ${got} %, which is worse than the limit`,
    'masses-rough': (got: string, wanted: string) =>
      `the masses are known to ${got} %; a third of the limit is ${wanted} %`,
    typed: (got: string) => `readings that were typed and not read from samples: ${got}`,
  } satisfies Record<ShortfallCode, (got: string, wanted: string) => string> as Record<
    ShortfallCode,
    (got: string, wanted: string) => string
  >,
  figures: 'Figures and limits',
  head: { what: 'What', plate: 'Plate', value: 'Found', limit: 'Limit', standing: 'Standing' },
  quantity: {
    gain: 'Gain error',
    offset: 'Offset',
    linearity: 'Linearity',
    hysteresis: 'Hysteresis',
    repeatability: 'Repeatability',
    'relative-error': 'Worst error above 200 N',
    'small-load-error': 'Worst error up to 200 N',
    'zero-return': 'Return to zero',
    'zero-drift': 'Drift of the zero',
    noise: 'Noise at rest (SD)',
    mains: 'Mains hum (amplitude)',
    spots: 'Spread over five places',
    balance: 'One person on each plate',
    frequency: 'Natural frequency',
    cell: 'Gain against the reference cell',
  } satisfies Record<RigQuantity, string> as Record<RigQuantity, string>,
  ofLargest: '% of the largest load',
  standing: { pass: 'within', look: 'to look at', fail: 'outside', 'not-judged': 'cannot be judged' },
  whole: 'both',
  limitNote:
    'The limits are those of this lab. Where it has none of its own they are proposals of this software and of no standard.',
  errors: (plate: string) => `Error by load, plate ${plate}`,
  errorsAlt: (plate: string, worst: string, load: string) =>
    `Readings of plate ${plate} less the true force; the worst is ${worst} at ${load}. Up the solid line, down the dashed one, the limits dotted.`,
  loads: 'Readings by load',
  loadHead: {
    plate: 'Plate',
    load: 'True force',
    up: 'Up',
    down: 'Down',
    error: 'Error up',
    hysteresis: 'Down less up',
  },
  places: 'One load at five places',
  placeHead: { place: 'Place', reading: 'Reading', fromCentre: 'From the centre' },
  placeName: {
    centre: 'centre',
    'front-left': 'front left',
    'front-right': 'front right',
    'back-left': 'back left',
    'back-right': 'back right',
  } satisfies Record<Spot, string> as Record<Spot, string>,
  masses: 'Masses',
  massHead: { name: 'Written on it', mass: 'Mass', known: 'Known by', within: '±', reference: 'Number or class' },
  known: { certificate: 'certificate, k = 2', tolerance: 'tolerance', printed: 'print only' },
  history: {
    title: 'Over the checks',
    none: 'This is the first check on record: there is no trend yet.',
    help: 'Each plate by itself: what a correction takes off is put back. Limits of this check dotted; the open point is this check.',
    name: { gain: 'Gain error (%)', zero: 'Zero (N)', noise: 'Noise at rest, SD (N)' },
    caption: (plate: string, n: string, from: string, to: string) => `Plate ${plate}: ${n} checks, ${from} to ${to}`,
    alt: (caption: string, newest: string) => `${caption}. At the last one: ${newest}.`,
  },
  uncertainty: 'What the plates are known to measure',
  uncertaintyText: (gain: string, repeatability: string, linearity: string, force: string) =>
    `Sum of the plates, standard uncertainties: gain ${gain} %, repeatability ${repeatability} N, linearity ${linearity} N, up to ${force}; beyond that the parts in newtons grow.`,
  wording:
    'This page reports a check that the lab made with its own masses. It is no calibration certificate, no accreditation stands behind it, and it gives the plates no class of any standard.',
  hash: (sha256: string) => `SHA-256 of what was read: ${sha256}`,
  signature: 'Signature',
};
