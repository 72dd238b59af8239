import type { TrialUncertainty } from '@sthene/contract';
import {
  type AnalysisRequest,
  analyse,
  contextsOf,
  defaultMethod,
  type Forces,
  forcesOf,
  metricRegistry,
  proposeForces,
  protocolRegistry,
  recordingOf,
  seededRandom,
  simulatePull,
  sourcesOf,
  standardGravity,
  type TrialResult,
  uncertainties,
} from '@sthene/core';

/** One simulated recording and what the analysis needs beside it. */
export interface Simulated {
  readonly id: string;
  readonly label: string;
  readonly forces: Forces;
  readonly weight?: number;
}

const bodyWeight = 742;

/** The pulls of one invented session, then special ones that show each state of the screen. */
export function simulatedTrials(): Simulated[] {
  const base = {
    sampleRate: 1000,
    bodyWeight,
    netForce: 2050,
    pace: 'medium',
    plateNoise: 0.8,
    pullShareRight: 0.52,
    standingShareRight: 0.5,
    tension: 6,
    breathing: 3,
    drift: 0,
  } as const;
  const pulls: [string, Record<string, unknown>, number][] = [
    ['good', { halfTime: 0.13 }, 11],
    ['dip', { fault: 'dip' }, 23],
    ['best', { netForce: 2126, halfTime: 0.12 }, 35],
    ['tension', { fault: 'tension-held' }, 42],
    ['gap', { fault: 'gap' }, 51],
  ];
  const made = pulls.map(([id, extra, seed]): Simulated => {
    const pull = simulatePull({ ...base, ...extra }, seed);
    return { id, label: id, forces: chosen(recordingOf(pull)), weight: pull.truth.weighed };
  });
  return [...made, single(made[0] as Simulated), flat(), long()];
}

function chosen(recording: ReturnType<typeof recordingOf>): Forces {
  const { selection } = proposeForces(recording);
  const forces = selection && forcesOf(recording, selection);
  if (!forces?.ok) throw new Error('the simulated recording has no forces');
  return forces.value;
}

/** The same pull from one channel: no sides. */
function single(of: Simulated): Simulated {
  const { left: _, right: __, ...rest } = of.forces;
  const plates = [{ name: 'force', side: 'total' as const, force: of.forces.total }];
  return { ...of, id: 'single', label: 'single', forces: { ...rest, plates } };
}

/** Somebody stands and never pulls. */
function flat(): Simulated {
  const random = seededRandom(5, 1);
  const left = Float64Array.from({ length: 6000 }, () => 371 + 0.8 * random.gaussian());
  const right = Float64Array.from({ length: 6000 }, () => 370 + 0.8 * random.gaussian());
  return { id: 'flat', label: 'flat', forces: plain(1000, [left], [right]), weight: bodyWeight };
}

/** 60 s at 2 kHz on eight plates, three efforts. */
function long(): Simulated {
  const rate = 2000;
  const count = 60 * rate;
  const pulls = [4, 24, 44].map((at, i) => ({
    at,
    pull: simulatePull({ sampleRate: rate, bodyWeight, netForce: 1900 + 90 * i, plateNoise: 1.5 }, 70 + i),
  }));
  const random = seededRandom(9, 1);
  const plates = Array.from({ length: 8 }, (_, p) => {
    const force = new Float64Array(count);
    for (let i = 0; i < count; i++) force[i] = bodyWeight / 8 + 1.2 * random.gaussian();
    for (const { at, pull } of pulls) {
      const side = p < 4 ? pull.left : pull.right;
      for (let i = 0; i < side.length; i++) force[at * rate + i] = (side[i] as number) / 4 + 1.2 * random.gaussian();
    }
    return force;
  });
  return { id: 'long', label: 'long', forces: plain(rate, plates.slice(0, 4), plates.slice(4)), weight: bodyWeight };
}

function plain(sampleRate: number, left: Float64Array[], right: Float64Array[]): Forces {
  const sum = (arrays: Float64Array[]) =>
    (arrays[0] as Float64Array).map((_, i) => arrays.reduce((total, one) => total + (one[i] as number), 0));
  const plates = [
    ...left.map((force, i) => ({ name: `L${i + 1}`, side: 'left' as const, force })),
    ...right.map((force, i) => ({ name: `R${i + 1}`, side: 'right' as const, force })),
  ];
  const [l, r] = [sum(left), sum(right)];
  const total = l.map((value, i) => value + (r[i] as number));
  return {
    sampleRate,
    sampleCount: total.length,
    unit: 'N',
    total,
    left: l,
    right: r,
    plates,
    gaps: { filled: [], open: [] },
  };
}

type Hand = { index: number; by: string; reason: string };

/** Analyses a simulated trial as the station would, with a hand-placed onset where there is one. */
export function resultOf(simulated: Simulated, onsetByHand?: Hand): TrialResult {
  const [trial] = analyse(requestOf(simulated, onsetByHand)).trials;
  if (!trial) throw new Error('the analysis gave no trial');
  return trial;
}

/** How sure its values are, on a rig nobody checked. */
export function uncertaintyOf(simulated: Simulated, onsetByHand?: Hand): TrialUncertainty {
  const { contexts } = contextsOf(requestOf(simulated, onsetByHand));
  const [context] = contexts.ok ? contexts.value : [];
  if (context === undefined) return { metrics: {}, rigChecked: false };
  const found = uncertainties(context, metricRegistry.all, sourcesOf(context, { synchronisation: 0 }));
  const metrics = Object.entries(found).map(([id, one]) => [id, one.ok ? one.value : { reason: one.reason }]);
  return { metrics: Object.fromEntries(metrics) as TrialUncertainty['metrics'], rigChecked: false };
}

function requestOf(simulated: Simulated, onsetByHand: Hand | undefined): AnalysisRequest {
  const protocol = protocolRegistry.get('imtp');
  if (!protocol) throw new Error('the mid-thigh pull is not among the tests');
  return {
    forces: simulated.forces,
    protocol,
    method: defaultMethod,
    gravity: standardGravity,
    efforts: 'largest',
    ...(simulated.weight === undefined ? {} : { bodyWeight: { value: simulated.weight, from: 'weighing' as const } }),
    ...(onsetByHand ? { onsetByHand } : {}),
  };
}
