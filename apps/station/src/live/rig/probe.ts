import type { SourceProbe } from '@sthene/contract';
import type { LiveLab } from '../live-lab.ts';

export async function serialPorts(): Promise<{ path: string }[]> {
  return [];
}
export async function probeSource(_live: LiveLab, _description: unknown, _seconds: number): Promise<SourceProbe> {
  throw new Error('not yet');
}
