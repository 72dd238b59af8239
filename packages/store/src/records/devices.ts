import type { UtcInstant } from '@sthene/core';
import { addRecord, changeRecord } from '../changes.ts';
import type { DeviceRow } from '../database.ts';
import type { Actor } from '../ports.ts';
import { inTransaction, type Scope } from '../scope.ts';
import { filled, instant, oneOf, id as recordId } from '../values.ts';
import { type RecordShape, readRecord, recordTable } from './record-table.ts';

export const deviceRoles = ['operator', 'wall', 'viewer'] as const;

/** A tablet, wall screen or phone that has been connected. It brings its own id. */
export interface Device {
  readonly id: string;
  readonly revision: number;
  readonly name: string;
  readonly role: (typeof deviceRoles)[number];
  readonly lastSeenAt: UtcInstant;
}

export interface DeviceRepository {
  /** Notes that a device is here; a known one is brought up to date. */
  seen(device: Omit<Device, 'revision' | 'lastSeenAt'>, actor: Actor): Promise<Device>;
  get(id: string): Promise<Device | undefined>;
  /** By name. */
  list(): Promise<Device[]>;
}

const shape: RecordShape<Device, 'devices'> = {
  kind: 'device',
  table: 'devices',
  check: (device) => {
    recordId('id', device.id);
    filled('name', device.name);
    oneOf('role', device.role, deviceRoles);
    instant('lastSeenAt', device.lastSeenAt);
  },
  toRow: (device): DeviceRow => ({ ...device }),
  fromRow: (row) => ({ ...row, role: row.role as Device['role'], lastSeenAt: row.lastSeenAt as UtcInstant }),
};

export function deviceRepository(scope: Scope): DeviceRepository {
  const table = recordTable(shape);
  return {
    seen: (device, actor) =>
      inTransaction(scope, async (inner) => {
        const lastSeenAt = inner.clock.now();
        const known = await readRecord(inner.db, shape, device.id);
        if (known === undefined) return addRecord(inner, table, { ...device, lastSeenAt, revision: 1 }, actor);
        const { name, role } = device;
        return changeRecord(inner, table, device.id, { name, role, lastSeenAt }, actor, { action: 'device.seen' });
      }),
    get: (id) => readRecord(scope.db, shape, id),
    list: async () =>
      (await scope.db.selectFrom('devices').selectAll().orderBy('name').orderBy('id').execute()).map(shape.fromRow),
  };
}
