import type { PullPace, Spot } from '@sthene/core';

/** Someone who can stand on the virtual plates. All of it is data; nobody of it is real. */
export interface VirtualPerson {
  /** Reference the live engine uses; absent: whoever is called first and has no person of their own. */
  readonly ref?: string;
  /** Body weight, N. */
  readonly weight: number;
  /** Plateau of a maximal pull above body weight, N. */
  readonly strength: number;
  /** Right foot's share of the load, 0 to 1; 0.5 when absent. */
  readonly shareRight?: number;
  /** Amplitude of the breathing, N; when absent 3, and 0.8 in jump tests, where people hold still. */
  readonly breathing?: number;
  /** Amplitude of a trembling at 8 Hz while standing, N; none when absent. */
  readonly tremor?: number;
  /** How fast the force rises; fast when absent. */
  readonly pace?: PullPace;
  /** What goes wrong, by maximal effort. */
  readonly faults?: readonly AttemptFault[];
  /** Height of a maximal jump, m; 0.3 when absent. */
  readonly jumpHeight?: number;
  /** What goes wrong in jump tests, by maximal effort. */
  readonly jumpFaults?: readonly JumpFault[];
}

/** A maximal jump that goes wrong. */
export interface JumpFault {
  /** Number of the maximal effort of this person, from 1. */
  readonly attempt: number;
  /**
   * `dip`: down before a squat jump; `jump-off`: from the box instead of stepping off it; `stumble`: steps about after the landing;
   * `second-jump`: again before standing still; `step-off`: leaves the plates instead of jumping.
   */
  readonly fault: 'dip' | 'jump-off' | 'stumble' | 'second-jump' | 'step-off';
}

/** A maximal effort that goes wrong, by the faults of the simulation. What a fault does earlier than 0.4 s before the pull is not played. */
export interface AttemptFault {
  /** Number of the maximal effort of this person, from 1. */
  readonly attempt: number;
  /** Id of a fault of the simulation. */
  readonly fault: string;
  /** Numbers of that fault to pin. */
  readonly severity?: Readonly<Record<string, number>>;
}

/** Spans in samples of the stream: [from, from + count). */
interface Span {
  readonly from: number;
  readonly count: number;
}

export type PlateSide = 'left' | 'right';

/** How a plate rings when it is tapped. */
export interface PlateRing {
  /** Natural frequency, Hz; under half of the rate. */
  readonly frequency: number;
  /** Damping ratio, from 0 (rings for ever) to below 1. */
  readonly damping: number;
}

/** What a plate is like for good: how it rings, and what is wrong with one that is worn or badly calibrated. */
export interface PlateWear {
  /** 180 Hz and 0.03 when absent. */
  readonly rings?: PlateRing;
  /** What it shows of a newton that stands near a corner; 1 where absent. */
  readonly corners?: Readonly<Partial<Record<Spot, number>>>;
  /** What it shows of a newton; 1 when absent. */
  readonly gain?: number;
  /** It follows the force only once that has moved so many newtons past it: low on the way up, high on the way down. None when absent. */
  readonly sticks?: number;
}

/** A fault of the line or of a plate, exact to the sample. */
export type LineFault =
  /** Samples that never come. */
  | ({ readonly kind: 'lost' } & Span)
  /** Given up as lost; they come `by` samples after they were due, too late for the grid. */
  | ({ readonly kind: 'late'; readonly by: number } & Span)
  /** The packet that holds `from` and the next ones come twice. */
  | { readonly kind: 'doubled'; readonly from: number; readonly packets: number }
  /** The packet that holds `from` comes after the next one, in time to be put in order. */
  | { readonly kind: 'swapped'; readonly from: number }
  /** The 16-bit counter of the packets wraps at the first packet from `from` on, as it does by itself after 65,536 packets. */
  | { readonly kind: 'wrap'; readonly from: number }
  /** The plates fall silent and lose what they measured meanwhile. */
  | ({ readonly kind: 'stall' } & Span)
  /** The cable is pulled out and put back. */
  | ({ readonly kind: 'unplug' } & Span)
  /** A plate reads its upper limit. */
  | ({ readonly kind: 'saturation'; readonly side: PlateSide } & Span)
  /** The plates' own clock runs at so many samples a second from here on, while 1000 stay promised. */
  | { readonly kind: 'rate'; readonly from: number; readonly hertz: number }
  /** The zero of a plate wanders by so many newtons over the span, and stays there. */
  | ({ readonly kind: 'drift'; readonly side: PlateSide; readonly newtons: number } & Span);

/** Who is there, and what goes wrong on the line. */
export interface VirtualScript {
  readonly people: readonly VirtualPerson[];
  readonly line?: readonly LineFault[];
  /** How long a pull is held, s; 5 when absent. */
  readonly pullSeconds?: number;
  /** Feet on the plates; both when absent. */
  readonly limbs?: 'both' | 'left' | 'right';
  /** White noise of each plate, SD in N; 0.6 when absent. */
  readonly plateNoise?: number;
  /** Largest force of a plate, N; 10 000 when absent. */
  readonly plateRange?: number;
  /** How the plates ring, and what is wrong with them; sound ones when absent. */
  readonly plates?: Readonly<Partial<Record<PlateSide, PlateWear>>>;
  /** True: nobody reacts to the engine; everything is done by the methods. */
  readonly byHand?: boolean;
}

/** Scripts that come with the station, by the name a source description uses. */
export const virtualScripts: Readonly<Record<string, VirtualScript>> = {
  /** Three of the club Fernwater on a good day. */
  'fernwater-three': {
    people: [
      { weight: 640, strength: 1250, pace: 'medium' },
      { weight: 860, strength: 1900, shareRight: 0.53 },
      { weight: 1010, strength: 1600, shareRight: 0.47 },
    ],
  },
  /** The same three on a practice day: the second one dips before the first maximal pull, so that a repeat is seen. */
  'fernwater-practice': {
    people: [
      { weight: 640, strength: 1250, pace: 'medium' },
      {
        weight: 860,
        strength: 1900,
        shareRight: 0.53,
        faults: [{ attempt: 1, fault: 'dip', severity: { depth_n: 110, duration_s: 0.3 } }],
      },
      { weight: 1010, strength: 1600, shareRight: 0.47 },
    ],
  },
  /**
   * The same three on worn plates: the left one shows 1.2 % too much; the right one sticks by 3 N, shows 1 % too little at its back
   * right corner, and rings low because a foot is loose. A check with masses, places and taps finds all four.
   */
  'fernwater-worn': {
    people: [
      { weight: 640, strength: 1250, pace: 'medium' },
      { weight: 860, strength: 1900, shareRight: 0.53 },
      { weight: 1010, strength: 1600, shareRight: 0.47 },
    ],
    plates: {
      left: { gain: 1.012 },
      right: { sticks: 3, corners: { 'back-right': 0.99 }, rings: { frequency: 82, damping: 0.05 } },
    },
  },
  /** Three of the club who jump; the second one dips, stumbles or jumps twice in the first jump, as the test has it. */
  'fernwater-jumpers': {
    people: [
      { weight: 640, strength: 1250, breathing: 0.8, jumpHeight: 0.29 },
      {
        weight: 860,
        strength: 1900,
        shareRight: 0.53,
        breathing: 0.8,
        jumpHeight: 0.38,
        jumpFaults: [{ attempt: 1, fault: 'stumble' }],
      },
      { weight: 1010, strength: 1600, shareRight: 0.47, breathing: 0.8, jumpHeight: 0.31 },
    ],
  },
  /** Eight of the club, one for each thing that happens in a day: what it is stands in its line. */
  'fernwater-eight': {
    people: [
      { weight: 640, strength: 1250, pace: 'medium' },
      // A dip before the first maximal pull.
      { weight: 860, strength: 1900, shareRight: 0.53, faults: [{ attempt: 1, fault: 'dip' }] },
      // Slack in the straps.
      { weight: 1010, strength: 1600, shareRight: 0.47, faults: [{ attempt: 1, fault: 'slack' }] },
      // Pulls on the bar already while waiting for the cue.
      { weight: 720, strength: 1450, faults: [{ attempt: 1, fault: 'tension-held' }] },
      // One weak leg.
      { weight: 790, strength: 1500, shareRight: 0.36 },
      // Trembles while standing.
      { weight: 690, strength: 1300, tremor: 14, faults: [{ attempt: 1, fault: 'unsteady-stance' }] },
      // Lets go early: first the pull, then the plates.
      { weight: 905, strength: 1750, faults: [{ attempt: 1, fault: 'early-end', severity: { hold_s: 0.6 } }] },
      // Much stronger than anybody.
      { weight: 1180, strength: 4600, pace: 'fast' },
    ],
  },
  /** The same three, each with a pull that goes wrong. */
  'fernwater-three-with-faults': {
    people: [
      {
        weight: 640,
        strength: 1250,
        pace: 'medium',
        faults: [{ attempt: 2, fault: 'early-end', severity: { hold_s: 0.7 } }],
      },
      {
        weight: 860,
        strength: 1900,
        shareRight: 0.53,
        faults: [{ attempt: 1, fault: 'dip', severity: { depth_n: 110, duration_s: 0.3 } }],
      },
      {
        weight: 1010,
        strength: 1600,
        shareRight: 0.47,
        faults: [{ attempt: 1, fault: 'early-end', severity: { hold_s: 0.6 } }],
      },
    ],
  },
};
