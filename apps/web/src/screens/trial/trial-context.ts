import type { LabId, TrialUncertainty, TrialView } from '@sthene/contract';
import { createContext, useContext } from 'react';
import type { CurveController } from '../../curve/controller.ts';
import type { DecideKind } from './decide-dialog.tsx';
import type { Highlight } from './evidence.ts';

/** What the parts of the Trial screen share. */
export interface TrialShared {
  readonly lab: LabId;
  readonly view: TrialView;
  /** How sure the values are; undefined while it is on its way, or where the station cannot say. */
  readonly uncertainty: TrialUncertainty | undefined;
  /** Unit of the forces. */
  readonly unit: string;
  /** What the reader of the recording had to decide or repair. */
  readonly notices: readonly { readonly code: string; readonly message: string }[];
  readonly controller: CurveController;
  readonly highlight: Highlight;
  setHighlight(highlight: Highlight): void;
  /** Brings a stretch of samples into the window. */
  zoomTo(span: { start: number; end: number }): void;
  /** Whether this device may decide about trials; else it looks on. */
  readonly decides: boolean;
  ask(kind: DecideKind): void;
  startMoving(): void;
}

const Context = createContext<TrialShared | undefined>(undefined);
export const TrialProvider = Context.Provider;

export function useShared(): TrialShared {
  const shared = useContext(Context);
  if (!shared) throw new Error('This part belongs on the Trial screen.');
  return shared;
}
