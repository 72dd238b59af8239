import { isJumpProtocol } from '@sthene/core';
import type { MethodsFacts } from '../methods-facts.ts';

const seconds = (value: number) => (value >= 120 && value % 60 === 0 ? `${value / 60} min` : `${value} s`);
const list = (items: readonly string[]) =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;

/** Sentences of the methods paragraph. Every number comes from the documents of method and protocol. */
export const methods = {
  title: 'Methods paragraph',
  heading: 'Test and protocol',
  analysis: 'Analysis',
  references: 'References',
  check: 'Named from memory in this program; look it up before you print it:',
  readIt:
    'Read it against what was really done. Add what no program knows: who the athletes were, consent and approval, calibration of the rig, and how it was fixed to the floor.',
  test: ({ test, protocol, cited }: MethodsFacts) =>
    `Athletes performed the test “${test}”${cited} by the protocol “${protocol.name}”, version ${protocol.version}.`,
  warmUp: ({ protocol: { warmUp } }: MethodsFacts) =>
    warmUp.efforts.length === 0
      ? 'No submaximal effort of the test came before.'
      : `The warm-up ended with ${warmUp.efforts.length} submaximal ${warmUp.efforts.length === 1 ? 'effort' : 'efforts'} of the test at ${list(warmUp.efforts.map(({ share }) => `${Math.round(100 * share)} %`))} of the athlete’s own best, ${seconds(warmUp.rest)} apart.`,
  efforts: ({ protocol }: MethodsFacts) => {
    const { maximal, pull, rest } = protocol;
    const length = isJumpProtocol(protocol) ? '' : ` of ${seconds(pull.seconds)}`;
    return maximal.planned === 0
      ? 'No maximal effort was made.'
      : `The plan was ${maximal.planned} maximal ${maximal.planned === 1 ? 'effort' : 'efforts'}${length}, with at least ${seconds(rest.minimum)} of rest between them; at least ${maximal.minimum} had to count, and no more than ${maximal.maximum} were made.`;
  },
  cue: ({ protocol: { cue } }: MethodsFacts) =>
    `After a count of ${cue.count} the cue was “${cue.words}”${cue.voice === 'spoken' ? ', spoken by the device with a tone' : ', with a tone'}.`,
  extra: ({ protocol }: MethodsFacts) => {
    const { share, difference } = protocol.extraTrial;
    const jump = isJumpProtocol(protocol);
    if (jump && share === undefined)
      return 'A further jump was asked for while the two best differed by more than the jump method allows.';
    const limit = share === undefined ? `${difference} N` : `${Math.round(100 * share)} % of the higher`;
    return `A further effort was asked for while the two ${jump ? 'best jumps' : 'highest peaks'} differed by more than ${limit}.`;
  },
  software: (software: string, name: string, version: number, sha256: string) =>
    `Force was analysed with ${software} by the method “${name}”, version ${version} (SHA-256 of the method ${sha256}).`,
  raw: 'Force was not filtered.',
  filtered: (cutoff: string) =>
    `Force was low-pass filtered by a second-order Butterworth section run forward and back (zero lag; net −3 dB at ${cutoff} Hz).`,
  weighing: (window: string, search: string, clearance: string) =>
    `The baseline was the mean of a ${window} s window of quiet standing that ended no more than ${search} s before force had risen by half, with ${clearance} s left clear of the rise; body weight was that of the weighing, the given one, or this mean, as each result says.`,
  noWeight: (window: string, search: string) =>
    `The baseline was the mean of a quiet ${window} s window that ended no more than ${search} s before force had risen by half; the test carries no body weight.`,
  onset: (title: string, cited: string) => `The onset was found by the rule “${title}”${cited}.`,
  onsetOwn: 'This definition is of the program itself.',
  letters:
    'In definitions F is total force, W body weight, B and S mean and SD of the baseline, r the sample at half the rise, e the end of the effort, o the onset, p the sample of the peak force F_p, and fs the sampling rate.',
  value: (rule: string) => `The value of a session is: ${rule}.`,
  checks: (n: number) =>
    `Every effort was judged by ${n} automatic checks (table). An effort that fails one is repeated or left out, one that a check doubts is looked at again; a person may overrule either with name and reason, which are kept.`,
  gravity: (g: string) => `Local acceleration of free fall was ${g} m/s².`,
  values: 'Values',
  valueHead: { value: 'Value', unit: 'Unit', definition: 'Definition', source: 'Source' },
  ownDefinition: 'own',
  checkTable: 'Checks with their limits',
  checkHead: { check: 'Check', limits: 'Limits', source: 'Source' },
  noLimits: 'from the protocol',
  limit: {
    warn: 'look again',
    fail: 'repeat',
    warnShareOfWeight: 'look again, share of body weight',
    failShareOfWeight: 'repeat, share of body weight',
    warnShareOfPeak: 'look again, share of the peak',
    failShareOfPeak: 'repeat, share of the peak',
    warnSds: 'look again, SDs of the baseline',
    failSds: 'repeat, SDs of the baseline',
    shareOfRange: 'share of the range',
    run: 'samples in a row',
    shortest: 'shortest',
    longest: 'longest',
    warnShareOfHeight: 'look again, share of the height',
  } as Readonly<Record<string, string>>,
};
