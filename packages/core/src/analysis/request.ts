import type { JumpMethod } from '../jumps/method/jump-method.ts';
import type { Method } from '../methods/method.ts';
import type { Protocol } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import type { SampleIndex, SampleSpan } from '../recording/sample.ts';

/** What `analyse` needs. Pure data in, pure data out. */
export interface AnalysisRequest {
  readonly forces: Forces;
  readonly protocol: Protocol;
  readonly method: Method;
  /** The recipe of a jump test, which never uses `method`; the built-in one where absent. */
  readonly jumpMethod?: JumpMethod;
  /** What the setup of a jump says: height of the box, m; load carried, kg. */
  readonly jumpSetup?: { readonly boxHeight?: number; readonly load?: number };
  /** m/s^2; 9.80665 unless the site has its own. */
  readonly gravity: number;
  /** A weighing of the session or a given weight, N. Without one the baseline mean is used. */
  readonly bodyWeight?: { readonly value: number; readonly from: 'weighing' | 'given' };
  /** What a live trial stored or a person chose; else everything. */
  readonly span?: SampleSpan;
  /** `largest`: one effort. `all`: every effort of the file, in order of time. */
  readonly efforts: 'largest' | 'all';
  readonly cue?: SampleIndex;
  readonly unloaded?: { readonly before: number; readonly after: number };
  /** A person's onset for the (single) effort. */
  readonly onsetByHand?: { readonly index: SampleIndex; readonly by: string; readonly reason: string };
}
