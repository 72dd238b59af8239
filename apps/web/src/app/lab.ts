import { type LabId, labId } from '@sthene/contract';
import { useLocation } from 'react-router';

/** The lab of the current address: `lab` (one's own) or `example`; undefined on the start page. */
export function useLab(): LabId | undefined {
  return labFrom(useLocation().pathname.split('/')[1]);
}

/** A word of an address as a lab, if it is one. */
export function labFrom(word: string | undefined): LabId | undefined {
  const parsed = labId.safeParse(word);
  return parsed.success ? parsed.data : undefined;
}
