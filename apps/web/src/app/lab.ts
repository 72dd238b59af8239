import { type LabId, labId } from '@sthene/contract';
import { useLocation } from 'react-router';

/** The lab of the current address: `lab` (one's own) or `example`; undefined on the start page. */
export function useLab(): LabId | undefined {
  const first = useLocation().pathname.split('/')[1];
  const parsed = labId.safeParse(first);
  return parsed.success ? parsed.data : undefined;
}
