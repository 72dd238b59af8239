import { expect, it } from 'vitest';
import { analyse } from '../analysis/index.ts';
import { checkFacts } from '../facts/index.ts';
import { defaultMethod } from '../methods/index.ts';
import { protocolRegistry } from '../protocols/index.ts';
import { forcesOf } from '../recording/index.ts';
import { faults, recordingOf, recordingOfJumps, simulateJump, simulatePull } from '../simulation/index.ts';
import type { CheckResult } from './check.ts';

const selection = {
  inputs: [
    { from: { kind: 'channel', index: 0 }, part: 'left' },
    { from: { kind: 'channel', index: 1 }, part: 'right' },
  ],
} as const;

function checksOf(test: string, recording: ReturnType<typeof recordingOf>): [string, CheckResult][] {
  const forces = forcesOf(recording, selection);
  const protocol = protocolRegistry.get(test);
  if (!forces.ok || protocol === undefined) throw new Error(test);
  const request = { forces: forces.value, protocol, method: defaultMethod, gravity: 9.80665, efforts: 'all' as const };
  return analyse(request).trials.flatMap(({ checks }) => Object.entries(checks));
}

/** What was said of a value tells on which side of the limit the good values lie: those that passed. */
const told = ({ status, value = 0, limit = 0 }: CheckResult) =>
  value < limit === (status === 'pass') ? 'most' : 'least';

it('the limits of each check are the most or the least, as what it says of pulls and jumps shows', () => {
  const pulls = [undefined, ...faults.map(({ id }) => id)].map((fault) =>
    recordingOf(simulatePull({ sampleRate: 1000, ...(fault === undefined ? {} : { fault }) }, 7)),
  );
  const slow = recordingOf(simulatePull({ sampleRate: 100 }, 7));
  const jump = (kind: 'countermovement' | 'squat' | 'drop' | 'repeated') =>
    recordingOfJumps([simulateJump({ kind }, 3)]);
  const said = [
    ...[...pulls, slow].flatMap((recording) => checksOf('imtp', recording)),
    ...checksOf('countermovement-jump', jump('countermovement')),
    // Jumps that belong to another test, and hops that are too few.
    ...checksOf('countermovement-jump', jump('squat')),
    ...checksOf('squat-jump', jump('countermovement')),
    ...checksOf('drop-jump', jump('drop')),
    ...checksOf('repeated-hops', jump('repeated')),
  ].filter(([, { status, value, limit }]) => status !== 'not-judged' && value !== limit && (value ?? -1) >= 0);
  for (const [id, result] of said)
    expect([id, checkFacts.get(id)?.bound ?? 'most', result], id).toEqual([id, told(result), result]);
  const seen = new Set(said.map(([id]) => id));
  for (const { id, bound } of checkFacts.all)
    if (bound === 'least' && id !== 'lift_off') expect(seen, id).toContain(id);
  expect(seen.size).toBeGreaterThan(25);
});
