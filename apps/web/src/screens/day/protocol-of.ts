import type { Day } from '@sthene/contract';
import { type ProtocolDocument, protocolRegistry, type SetupField } from '@sthene/core';

/** The protocol a test of a day is run by; undefined where the station does not tell. */
export const protocolOf = (day: Pick<Day, 'protocols'>, test: string): ProtocolDocument | undefined =>
  day.protocols?.find(({ document }) => document.test.id === test)?.document as ProtocolDocument | undefined;

/** The setup fields of a test as the day's protocol has them. */
export const setupFieldsOf = (day: Pick<Day, 'protocols'>, test: string): readonly SetupField[] =>
  protocolOf(day, test)?.setupFields ?? protocolRegistry.get(test)?.setupFields ?? [];
