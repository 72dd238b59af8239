import { metricFacts, parseUnit } from '@sthene/core';
import { plainWords } from './plain-words.ts';

const byName = new Map<string, string>();
for (const { id, title } of metricFacts.all) {
  byName.set(plainWords(title), id);
  byName.set(plainWords(id), id);
}
// Without more words nobody knows which of the four heights it is; they differ by up to 15 cm.
byName.delete('jump height');

/** Whole headings of the trade (common practice). */
const usual = new Map(
  Object.entries({
    pf: 'peak_force',
    'force peak': 'peak_force',
    fmax: 'peak_force',
    'f max': 'peak_force',
    mvc: 'peak_force',
    'time to pf': 'time_to_peak',
    ttp: 'time_to_peak',
    ttpf: 'time_to_peak',
    bw: 'body_weight',
    bm: 'body_mass',
    mass: 'body_mass',
  }),
);

const is = (id: string): string | undefined => (metricFacts.get(id) === undefined ? undefined : id);

/**
 * Which of our metrics a heading means, or undefined: a proposal for a person to confirm. Nothing is proposed for a name that leaves
 * open which metric it is (a rate without its times, a jump height).
 *
 * @param unit UCUM code beside the name, '' for none; tells a force from a force per kilogram, a weight from a mass
 */
export function metricNamed(name: string, unit = ''): string | undefined {
  const words = plainWords(name);
  const known = byName.get(words) ?? usual.get(words);
  if (known !== undefined && (unit === '' || fits(known, unit))) return known;
  const found = measured(sorted(words, unit));
  return found !== undefined && (unit === '' || fits(found, unit)) ? found : undefined;
}

function fits(id: string, unit: string): boolean {
  const own = parseUnit(metricFacts.get(id)?.unit ?? '')?.dimension;
  const given = parseUnit(unit)?.dimension;
  // a body weight in kilograms is a mass, and a kilogram of force is often written kg
  return own === given || (own === 'force' && given === 'mass' && id !== 'body_weight');
}

interface Heading {
  readonly words: string;
  readonly side: 'left' | 'right' | undefined;
  readonly net: boolean;
  readonly relative: boolean;
}

/** Takes side, net and per kilogram out of the words; what is left says what was measured. */
function sorted(words: string, unit: string): Heading {
  let rest = ` ${words} `
    .replace(/ rate of force dev(elopment)? /g, ' rfd ')
    .replace(/ (max|maximal|maximum) force /g, ' peak force ')
    .replace(/ pf /g, ' peak force ')
    .replace(/ (milliseconds?|msec) /g, ' ms ')
    .replace(/(\d)(ms) /g, '$1 ms ')
    .replace(/ (rfd|force|f|impulse|imp)(\d)/g, ' $1 $2')
    .replace(/ (imtp|iso|isometric|gross|absolute|abs|vertical|total|trial|the|of) (?=.)/g, ' ')
    .replace(/ (gross|absolute|abs|total) /g, ' ');
  const take = (pattern: RegExp): boolean => {
    const before = rest;
    rest = rest.replace(pattern, ' ');
    return rest !== before;
  };
  const left = take(/ (left|l) /);
  const right = take(/ (right|r) /);
  const net = take(/ net /);
  const perKilogram = take(/ (relative|rel|per kg|\/kg|\/ kg|n\/kg) /);
  return {
    words: rest.replace(/\s+/g, ' ').trim(),
    side: left === right ? undefined : left ? 'left' : 'right',
    net,
    relative: perKilogram || parseUnit(unit)?.dimension === 'force-per-mass',
  };
}

function measured({ words, side, net, relative }: Heading): string | undefined {
  if (/^(bodyweight|body weight)$/.test(words)) return 'body_weight';
  if (/^(bodymass|body mass)$/.test(words)) return 'body_mass';
  if (/^(time to peak( force)?)$/.test(words)) return 'time_to_peak';
  if (words === 'peak force')
    return side ? is(`${side}_peak_force`) : is(`peak_force${net ? '_net' : ''}${relative ? '_relative' : ''}`);
  const force = /^(?:force|f)(?: at)? (\d+)(?: ms)?$/.exec(words);
  if (force) {
    const at = force[1];
    if (side) return net || relative ? undefined : is(`${side}_force_at_${at}`);
    return net && relative ? undefined : is(`force_${net ? 'net_' : ''}at_${at}${relative ? '_relative' : ''}`);
  }
  const rate = /^rfd(?: (\d+))?(?: ms)?(?: to)? (\d+)(?: ms)?$/.exec(words);
  if (rate && !side && !relative) return is(`rfd_${rate[1] ?? 0}_${rate[2]}`);
  const peak = /^peak rfd (\d+)(?: ms)?(?: window)?$/.exec(words);
  if (peak && !side) return is(`rfd_peak_${peak[1]}`);
  const impulse = /^(?:impulse|imp)(?: 0)?(?: ms)?(?: to)? (\d+)(?: ms)?$/.exec(words);
  if (impulse && !relative)
    return side ? is(`${side}_impulse_0_${impulse[1]}`) : is(`impulse_${net ? 'net_' : ''}0_${impulse[1]}`);
  return undefined;
}
