import type { LabId } from '@sthene/contract';
import type { Actor, Store } from '@sthene/store';

/** A lab that is open: its store and who acts in it. */
export interface OpenLab {
  readonly id: LabId;
  readonly name: string;
  readonly demo: boolean;
  readonly folder: string;
  readonly store: Store;
  /** g of the site, m/s^2. */
  readonly gravity: number;
  /** The account behind a name that was signed with; made when it is new. Names never enter the audit trail. */
  actor(name: string): Promise<Actor>;
  /** The name behind an account. */
  nameOf(account: string): Promise<string>;
}

/** Acts of the station itself. */
export const stationActor: Actor = { by: 'station', station: 'station' };
