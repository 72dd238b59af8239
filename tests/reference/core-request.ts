import { type AnalysisRequest, type Method, methodRegistry, type Protocol, protocolRegistry } from '@sthene/core';
import type { Input } from './plain/types.ts';

/** A built-in protocol with the load, limbs and limits of the case, so that both sides are asked the same. */
function protocolOf(input: Input): Protocol {
  const base = protocolRegistry.all.find((protocol) => protocol.load === input.load)!;
  return {
    ...base,
    limbs: input.limbs,
    pullSeconds: input.pull,
    ...(base.parameters ? { parameters: { ...base.parameters, baselineSeconds: input.baselineSeconds } } : {}),
  };
}

/** The first built-in method, every metric and check in it, with the case's rule and filter. */
function methodOf(input: Input): Method {
  const base = methodRegistry.get('standard')!.method;
  return {
    ...base,
    ...(input.filterCutoff === undefined
      ? {}
      : { filter: { kind: 'butterworth-zero-lag' as const, cutoff: input.filterCutoff } }),
    onset: { rule: input.onsetRule, version: 1 },
    window: { ...base.window, baseline: input.baselineSeconds, anchor: input.anchorSeconds },
    allometricExponent: input.allometricExponent,
  };
}

/** The same question for the product's `analyse`. */
export function requestOf(input: Input): AnalysisRequest {
  return {
    forces: {
      sampleRate: input.fs,
      sampleCount: input.total.length,
      unit: 'N',
      total: input.total,
      ...(input.left ? { left: input.left } : {}),
      ...(input.right ? { right: input.right } : {}),
      plates: input.plates.map((plate, i) => ({ name: `plate ${i + 1}`, ...plate, side: plate.side as 'left' })),
      gaps: input.gaps,
    },
    protocol: protocolOf(input),
    method: methodOf(input),
    gravity: input.gravity,
    ...(input.bodyWeight ? { bodyWeight: input.bodyWeight } : {}),
    ...(input.span ? { span: input.span } : {}),
    efforts: input.efforts,
    ...(input.cue === undefined ? {} : { cue: input.cue }),
    ...(input.unloaded ? { unloaded: input.unloaded } : {}),
    ...(input.onsetByHand === undefined
      ? {}
      : { onsetByHand: { index: input.onsetByHand, by: 'M. Halvard', reason: 'last trough before the rise' } }),
  };
}
