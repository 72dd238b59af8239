import type { AnalysisRequest } from '../src/analysis/index.ts';
import { defaultMethod } from '../src/methods/index.ts';
import { protocolRegistry } from '../src/protocols/index.ts';
import type { Forces, PlateForce } from '../src/recording/index.ts';

/** Forces of one total curve, N. */
export function forcesOfCurve(total: Float64Array, sampleRate = 1000, more: Partial<Forces> = {}): Forces {
  const plates: PlateForce[] = [{ name: 'plate', side: 'none', force: total }];
  return { sampleRate, sampleCount: total.length, unit: 'N', total, plates, gaps: { filled: [], open: [] }, ...more };
}

/** A request with the default method on the long pull; tests say only what differs. */
export function request(forces: Forces, more: Partial<AnalysisRequest> = {}): AnalysisRequest {
  const protocol = protocolRegistry.get('imtp');
  if (protocol === undefined) throw new Error('no imtp');
  return { forces, protocol, method: defaultMethod, gravity: 9.80665, efforts: 'largest', ...more };
}

/**
 * The exact curve of the check values: 800 N until `start` seconds, then 800 + 2000 (1 - exp(-t / 0.1)), let go after `hold`
 * seconds. A deterministic ripple stands for plate noise.
 */
export function exactPull(start = 3, hold = 3, sampleRate = 1000, ripple = 0): Float64Array {
  return Float64Array.from({ length: Math.round((start + hold + 1) * sampleRate) }, (_, i) => {
    const t = i / sampleRate - start;
    const net = t < 0 || t > hold ? 0 : 2000 * (1 - Math.exp(-t / 0.1));
    return 800 + net + ripple * Math.sin(i * 12.9898) * Math.cos(i * 78.233);
  });
}
