import type { SessionRow } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';
import { numberText } from '../../number/format.ts';

/** Title of a test; one this page does not know keeps its id. */
export const testTitle = (id: string): string => protocolRegistry.get(id)?.title ?? id.replaceAll('-', ' ');

/** Title of a session's test, in loaded jumps with what was carried: several of one day differ in nothing else. */
export const sessionTitle = ({ protocol, load }: Pick<SessionRow, 'protocol' | 'load'>): string =>
  load === undefined ? testTitle(protocol) : `${testTitle(protocol)}, ${asTyped(load)}\u00a0kg`;

/** With the decimals it was written down with, at most two. */
const asTyped = (load: number): string => numberText(load, Math.min(2, (String(load).split('.')[1] ?? '').length));
