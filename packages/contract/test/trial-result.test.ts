import {
  analyse,
  defaultJumpMethod,
  defaultMethod,
  faults,
  forcesOf,
  type JumpKind,
  protocolRegistry,
  recordingOf,
  recordingOfJumps,
  simulateJump,
  simulatePull,
} from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { resultDocument, trialDocument, trialResult } from '../src/index.ts';

const selection = {
  inputs: [
    { from: { kind: 'channel' as const, index: 0 }, part: 'left' as const },
    { from: { kind: 'channel' as const, index: 1 }, part: 'right' as const },
  ],
};

/** A result of the real analysis; a fault, a rest without a pull, or a good pull. */
function resultOf(fault: string | undefined) {
  const protocol = protocolRegistry.get('imtp');
  const forces = forcesOf(recordingOf(simulatePull(fault === undefined ? {} : { fault }, 3)), selection);
  if (!forces.ok || protocol === undefined) throw new Error('the simulation gave no forces');
  const { trials } = analyse({
    forces: forces.value,
    protocol,
    method: defaultMethod,
    gravity: 9.80665,
    efforts: 'largest',
  });
  if (trials[0] === undefined) throw new Error('no trial');
  return trials[0];
}

const jumpTests: readonly (readonly [JumpKind, string])[] = [
  ['countermovement', 'countermovement-jump'],
  ['squat', 'squat-jump'],
  ['drop', 'drop-jump'],
  ['repeated', 'repeated-hops'],
];

/** A result of the real analysis of a jump; `test` may be one that finds no jump of its kind. */
function resultOfJump(kind: JumpKind, test: string) {
  const protocol = protocolRegistry.get(test);
  const forces = forcesOf(recordingOfJumps([simulateJump({ kind }, 3)]), selection);
  if (!forces.ok || protocol === undefined) throw new Error('the simulation gave no forces');
  const request = { forces: forces.value, protocol, method: defaultMethod, gravity: 9.80665 } as const;
  const [trial] = analyse({ ...request, efforts: 'largest', jumpSetup: { boxHeight: 0.3 } }).trials;
  if (trial === undefined) throw new Error('no trial');
  return trial;
}

const onTwoLegs = faults.filter((fault) => fault.id !== 'other-foot').map((fault) => fault.id);

describe('the schema of a trial result', () => {
  // what the schema does not know it drops, so equality shows that it knows everything the core gives
  it.each([undefined, ...onTwoLegs])('holds all of a result (fault: %s)', (fault) => {
    const sent: unknown = JSON.parse(JSON.stringify(resultOf(fault)));
    expect(trialResult.parse(sent)).toEqual(sent);
  });
});

describe('the result document', () => {
  it.each([undefined, ...onTwoLegs])('is valid and loses no number (fault: %s)', (fault) => {
    const result = resultOf(fault);
    const trial = trialDocument(result, defaultMethod);
    const document = {
      schema: 'sthene.result/1',
      app: 'test',
      recordings: [{ file: 'a', sha256: 'b', rate_hz: 1000, samples: 1, notices: [], trials: [trial] }],
      errors: [],
    };
    expect(resultDocument.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
    for (const [id, metric] of Object.entries(result.metrics)) {
      expect(trial.metrics[id]).toMatchObject(
        'reason' in metric ? { reason: metric.reason } : { value: metric.value, unit: metric.unit },
      );
    }
    expect(Object.keys(trial.checks)).toEqual(Object.keys(result.checks));
  });
});

describe('a jump', () => {
  it.each([...jumpTests, ['countermovement', 'drop-jump'] as const])('%s as %s is held by the schema', (kind, test) => {
    const sent: unknown = JSON.parse(JSON.stringify(resultOfJump(kind, test)));
    expect(trialResult.parse(sent)).toEqual(sent);
  });

  it.each(jumpTests)('%s as %s is told by the document, each instant in seconds', (kind, test) => {
    const result = resultOfJump(kind, test);
    const trial = trialDocument(result, defaultJumpMethod);
    const document = {
      schema: 'sthene.result/1',
      app: 'test',
      recordings: [{ file: 'a', sha256: 'b', rate_hz: 1000, samples: 1, notices: [], trials: [trial] }],
      errors: [],
    };
    expect(resultDocument.parse(JSON.parse(JSON.stringify(document)))).toEqual(document);
    const { takeOff = 0, touchdown = 0 } = result.jump ?? {};
    expect(trial.jump).toMatchObject({
      kind,
      take_off: { index: takeOff, time_s: takeOff / 1000 },
      touchdown: { index: touchdown, time_s: touchdown / 1000 },
    });
    expect(trial.jump?.phases.map(({ id }) => id)).toEqual(result.jump?.phases.map(({ id }) => id));
    expect(trial.method.name).toBe('Sthene jumps');
  });
});
