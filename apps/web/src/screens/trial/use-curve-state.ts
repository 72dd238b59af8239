import { useSyncExternalStore } from 'react';
import type { CurveController, CurveState } from '../../curve/controller.ts';

/** The curve's state as React state, with a choice so that a part re-renders only for what it shows. */
export function useCurveState<T>(controller: CurveController, choose: (state: CurveState) => T): T {
  return useSyncExternalStore(controller.subscribe, () => choose(controller.state()));
}
