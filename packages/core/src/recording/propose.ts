import { unitOf } from '../units/index.ts';
import type { NameSigns } from './channel-names.ts';
import { readName } from './channel-names.ts';
import type { ForceInput, ForceSelection, Side } from './forces.ts';
import type { Notice } from './notice.ts';
import { physicalValues } from './physical.ts';
import type { Channel, Recording } from './recording.ts';

/** An input that could be a force, how sure that is, and the sentence that says why. */
export interface ForceCandidate {
  readonly input: ForceInput;
  readonly confidence: 'sure' | 'likely' | 'unsure';
  readonly reason: Notice;
}

/** A suggestion for a person to accept or change; nothing is ever chosen silently. */
export interface ForceProposal {
  /** Absent when nothing in the recording can be taken for a force without being told more. */
  readonly selection?: ForceSelection;
  readonly candidates: readonly ForceCandidate[];
  /** Why the selection is what it is, in the order the decisions were taken. */
  readonly reasons: readonly Notice[];
}

/**
 * Proposes which inputs of a recording are vertical forces, on which side, in which unit.
 *
 * In this order: the header of our own files (`left_n`, `right_n`, `total_n`); force platforms with a vertical force; channels
 * in a force unit, or with a force's name and no unit (taken as newtons, and said), vertical ones first.
 */
export function proposeForces(recording: Recording): ForceProposal {
  return ownHeader(recording) ?? platforms(recording) ?? namedChannels(recording);
}

const ownNames: Readonly<Record<string, Side | 'total'>> = { left_n: 'left', right_n: 'right', total_n: 'total' };

function ownHeader({ channels }: Recording): ForceProposal | undefined {
  const candidates: ForceCandidate[] = [];
  channels.forEach((channel, index) => {
    const part = ownNames[channel.name.toLowerCase()];
    if (part === undefined) return;
    candidates.push({
      input: { from: { kind: 'channel', index }, part, ...(channel.unit === '' ? { unit: 'N' } : {}) },
      confidence: 'sure',
      reason: notice('force-own-header', `The channel "${channel.name}" is named as in a file of this product.`),
    });
  });
  return candidates.length === 0 ? undefined : proposal(candidates, candidates, []);
}

function platforms({ platforms: found }: Recording): ForceProposal | undefined {
  const candidates: ForceCandidate[] = [];
  found.forEach((platform, index) => {
    if (platform.verticalForce === undefined) return;
    const { side } = readName(platform.name);
    candidates.push({
      input: { from: { kind: 'platform', index }, part: side === 'total' ? 'none' : side },
      confidence: found.length > 2 ? 'unsure' : 'likely',
      reason: notice(
        'force-platform',
        `The file describes "${platform.name}" as a force platform of type ${platform.type}.`,
      ),
    });
  });
  if (candidates.length === 0) return undefined;
  const reasons: Notice[] = [];
  if (candidates.length > 1 && candidates.every(({ input }) => input.part === 'none')) {
    reasons.push(notice('force-sides-unknown', 'The file does not say which platform is left and which is right.'));
  }
  if (candidates.length > 2) {
    const text = `The file has ${candidates.length} platforms; all are summed until a person chooses.`;
    reasons.push(notice('force-many-platforms', text));
  }
  return proposal(candidates, candidates, reasons);
}

/** More channels than this are a laboratory's whole converter, not its plates. */
const mostPlates = 8;

interface Named extends ForceCandidate {
  readonly signs: NameSigns;
}

function namedChannels({ channels }: Recording): ForceProposal {
  const candidates: Named[] = [];
  channels.forEach((channel, index) => {
    const candidate = candidateOf(channel, index, channels.length);
    if (candidate !== undefined) candidates.push(candidate);
  });
  const usable = candidates.filter(({ input, confidence }) => input.unit !== undefined || confidence !== 'unsure');
  const reasons: Notice[] = [];
  let chosen = usable.filter(({ signs }) => signs.component === 'vertical');
  if (chosen.length > 0 && chosen.length < usable.length) {
    reasons.push(
      notice('force-vertical-preferred', 'Of the force channels, those that are named as vertical are taken.'),
    );
  }
  if (chosen.length === 0) chosen = usable.filter(({ signs }) => signs.component === 'force' || signs.side !== 'none');
  if (chosen.length === 0) chosen = usable.filter(({ signs }) => signs.component === 'unknown');
  const sided = chosen.filter(({ signs }) => signs.side !== 'none');
  if (sided.length > 0 && sided.length < chosen.length) {
    chosen = sided;
    reasons.push(notice('force-sided-preferred', 'Of these, the channels that name a side or the total are taken.'));
  }
  if (chosen.length > mostPlates) {
    const text = `${chosen.length} channels could be forces, more than plates in a room. Choose them by hand.`;
    return proposal(candidates, [], [notice('force-too-many', text)]);
  }
  const [only] = chosen;
  if (only !== undefined && chosen.length === 1 && only.input.part === 'none') {
    reasons.push(notice('force-single', 'It is the only vertical force, so it is taken as the total.'));
    return proposal(candidates, [{ ...only, input: { ...only.input, part: 'total' } }], reasons);
  }
  if (chosen.length > 1 && sided.length === 0) {
    reasons.push(notice('force-sides-unknown', 'The names do not say which channel is left and which is right.'));
  }
  if (chosen.length === 0) {
    reasons.push(
      notice('force-none-found', 'No channel has a force unit or the name of a force. Choose them by hand.'),
    );
  }
  return proposal(candidates, chosen, reasons);
}

function candidateOf(channel: Channel, index: number, count: number): Named | undefined {
  const signs = readName(channel.name);
  const from = { kind: 'channel', index } as const;
  const base = { from, part: signs.side };
  const named = signs.component === 'vertical' || signs.component === 'force';
  const dimension = channel.unit === '' ? undefined : unitOf(channel.unit)?.dimension;
  if (signs.component === 'other' || signs.component === 'horizontal') return undefined;
  if (dimension === 'force') {
    const sign = pressesNegative(channel) ? ({ sign: -1 } as const) : {};
    const flipped = 'sign' in sign ? ' Its values are mostly negative, so they are turned round.' : '';
    return {
      input: { ...base, unit: channel.unit, ...sign },
      confidence: named ? 'sure' : 'likely',
      reason: notice('force-unit', `The channel "${channel.name}" is in ${channel.unit}, a unit of force.${flipped}`),
      signs,
    };
  }
  if (channel.unit === '' && (named || signs.side !== 'none' || count === 1)) {
    const sign = pressesNegative(channel) ? ({ sign: -1 } as const) : {};
    return {
      input: { ...base, unit: 'N', ...sign },
      confidence: named ? 'likely' : 'unsure',
      reason: notice('force-unit-assumed', `The channel "${channel.name}" names no unit; newtons are assumed.`),
      signs,
    };
  }
  if (dimension === 'voltage' && (named || signs.side !== 'none')) {
    return {
      input: base,
      confidence: 'unsure',
      reason: notice(
        'force-needs-calibration',
        `The channel "${channel.name}" is a voltage: give its newtons per unit.`,
      ),
      signs,
    };
  }
  return undefined;
}

/** True when a channel is negative on average and reaches further below zero than above. */
function pressesNegative(channel: Channel): boolean {
  let low = 0;
  let high = 0;
  let sum = 0;
  const values = physicalValues(channel);
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (!Number.isFinite(value)) continue;
    sum += value;
    if (value < low) low = value;
    else if (value > high) high = value;
  }
  return sum < 0 && -low > high;
}

function proposal(
  candidates: readonly ForceCandidate[],
  chosen: readonly ForceCandidate[],
  reasons: readonly Notice[],
): ForceProposal {
  const bare = (candidate: ForceCandidate): ForceCandidate => ({
    input: candidate.input,
    confidence: candidate.confidence,
    reason: candidate.reason,
  });
  return {
    ...(chosen.length === 0 ? {} : { selection: { inputs: chosen.map(({ input }) => input) } }),
    candidates: candidates.map(bare),
    reasons: [...chosen.map(({ reason }) => reason), ...reasons],
  };
}

const notice = (code: string, message: string): Notice => ({ code, message });
