import { createHash, randomBytes, randomUUID, timingSafeEqual } from 'node:crypto';
import type { AccessView, DeviceList, LabId, LiveRole, MadeCode, PairedDevice } from '@sthene/contract';
import type { UtcInstant } from '@sthene/core';
import { type Actor, StoreError } from '@sthene/store';
import type { Labs } from '../labs/labs.ts';
import { type OpenLab, stationActor } from '../labs/open-lab.ts';
import { dateOf } from '../live/clock.ts';
import type { Caller, CallingDevice } from './caller.ts';
import { Codes } from './codes.ts';
import { Connections } from './connections.ts';
import { accessRefusals } from './refusals.ts';
import { Throttle } from './throttle.ts';

/** A pairing as the lab's settings keep it; every state stays in the history. */
interface Kept {
  readonly name: string;
  readonly role: LiveRole;
  /** SHA-256 of the secret, hexadecimal. The secret itself is with the device alone. */
  readonly secret: string;
  readonly pairedAt: string;
  readonly lastSeen: string;
  readonly revokedAt?: string;
}

const prefix = 'paired-device.';
const tokenPattern = /^(lab|example)\.([0-9a-f-]{36})\.([A-Za-z0-9_-]{43})$/;
/** So many wrong codes in a row from one address are noted in the audit trail. */
const noteAt = 10;

/** Which devices are paired with the labs of this station. A pairing belongs to one lab and is kept and audited there. */
export class Devices {
  readonly codes: Codes;
  readonly connections = new Connections();
  readonly #throttle: Throttle;
  readonly #labs: Labs;
  readonly #now: () => number;
  #wrongCodes = 0;

  constructor(labs: Labs, now: () => number = Date.now) {
    this.#labs = labs;
    this.#now = now;
    this.codes = new Codes(now, randomUUID);
    this.#throttle = new Throttle(now);
  }

  /** Whom a token stands for. It is looked up each time, so that taking a device off holds from the next request on. */
  async recognise(token: string | undefined): Promise<Caller | 'unknown' | 'revoked'> {
    const [, lab, id = '', secret = ''] = tokenPattern.exec(token ?? '') ?? [];
    if (lab === undefined || !this.#labs.exists(lab as LabId)) return 'unknown';
    const open = await this.#labs.open(lab as LabId);
    const found = await keptDevice(open, id);
    if (found === undefined || !timingSafeEqual(Buffer.from(found.kept.secret, 'hex'), hashOf(secret)))
      return 'unknown';
    const { name, role, revokedAt, lastSeen } = found.kept;
    if (revokedAt !== undefined) return 'revoked';
    const today = this.#today();
    // Whatever changed the pairing meanwhile goes before this.
    if (lastSeen !== today) await keep(open, id, found, { lastSeen: today }, stationActor).catch(() => {});
    return { rank: role, device: { id, name, role, lab: lab as LabId } };
  }

  /** Whether a caller that was recognised before is still what it was. */
  async holds({ device }: Caller): Promise<boolean> {
    if (device === undefined) return true;
    const found = await keptDevice(await this.#labs.open(device.lab), device.id);
    return found !== undefined && found.kept.revokedAt === undefined;
  }

  async makeCode(lab: LabId, draft: { name: string; role: LiveRole; by: string }): Promise<MadeCode> {
    const open = await this.#labs.open(lab);
    const made = this.codes.make(lab, draft);
    const note = {
      action: 'device.code',
      subject: { kind: 'device-code', id: made.id },
      details: { role: draft.role },
    };
    await open.store.audit.add(note, await open.actor(draft.by));
    return made;
  }

  /**
   * Pairs a device by its code.
   *
   * @param address where the request came from; wrong codes make this address wait
   * @returns the device and the token it must show from now on
   */
  async pair(typed: string, address: string): Promise<{ readonly view: AccessView; readonly token: string }> {
    const wait = this.#throttle.wait(address);
    if (wait > 0) throw accessRefusals.wait(wait);
    const used = this.codes.use(typed);
    if (used === 'code-expired') throw accessRefusals.codeExpired();
    if (used === 'code-wrong') {
      await this.#guessed(this.#throttle.wrong(address));
      throw accessRefusals.codeWrong();
    }
    this.#throttle.right(address);
    const open = await this.#labs.open(used.lab);
    const id = randomUUID();
    const secret = randomBytes(32).toString('base64url');
    const { name, role, lab } = used;
    const pairedAt = new Date(this.#now()).toISOString();
    const kept: Kept = { name, role, secret: hashOf(secret).toString('hex'), pairedAt, lastSeen: this.#today() };
    await keep(open, id, { kept, revision: 0 }, {}, await open.actor(used.by), 'device.pair');
    return { view: { place: 'network', device: { id, name, role, lab } }, token: `${lab}.${id}.${secret}` };
  }

  /** In use first, by name; those taken off after them, newest first. */
  async list(lab: LabId): Promise<DeviceList> {
    const all = await (await this.#labs.open(lab)).store.settings.list();
    const devices = all
      .filter(({ key }) => key.startsWith(prefix))
      .map(({ key, value }) => this.#view(key.slice(prefix.length), value as Kept));
    const inUse = devices.filter(({ revokedAt }) => revokedAt === undefined);
    const off = devices.filter(({ revokedAt }) => revokedAt !== undefined);
    return {
      devices: [
        ...inUse.sort((a, b) => (a.name < b.name ? -1 : 1)),
        ...off.sort((a, b) => ((a.revokedAt ?? '') > (b.revokedAt ?? '') ? -1 : 1)),
      ],
      waiting: this.codes.list(lab),
      wrongCodes: this.#wrongCodes,
    };
  }

  async rename(lab: LabId, id: string, name: string, by: string): Promise<PairedDevice> {
    return this.#change(lab, id, async (open, found) =>
      this.#view(id, await keep(open, id, found, { name }, await open.actor(by), 'device.rename')),
    );
  }

  async revoke(lab: LabId, id: string, by: string): Promise<PairedDevice> {
    return this.#change(lab, id, async (open, found) =>
      this.#takeOff(open, id, found, await open.actor(by), 'device.revoke'),
    );
  }

  /** A device gives up its own pairing. */
  async leave({ lab, id }: CallingDevice): Promise<void> {
    await this.#change(lab, id, (open, found) =>
      this.#takeOff(open, id, found, { by: id, station: id, role: found.kept.role }, 'device.leave'),
    );
  }

  async #takeOff(open: OpenLab, id: string, found: Found, actor: Actor, action: string): Promise<PairedDevice> {
    const revokedAt = new Date(this.#now()).toISOString();
    const off =
      found.kept.revokedAt === undefined ? await keep(open, id, found, { revokedAt }, actor, action) : found.kept;
    this.connections.end(id);
    return this.#view(id, off);
  }

  /** Changes a pairing as it is now; when something else changed it in between, looks again. */
  async #change<T>(lab: LabId, id: string, act: (open: OpenLab, found: Found) => Promise<T>): Promise<T> {
    const open = await this.#labs.open(lab);
    for (let tries = 1; ; tries++) {
      const found = await keptDevice(open, id);
      if (found === undefined) throw accessRefusals.noDevice();
      try {
        return await act(open, found);
      } catch (error) {
        const meanwhile = error instanceof StoreError && error.code === 'changed-meanwhile';
        if (!meanwhile || tries === 5) throw error;
      }
    }
  }

  #view(id: string, { secret: _, ...shown }: Kept): PairedDevice {
    return { id, ...shown, connections: this.connections.count(id) };
  }

  /** Guessing leaves a trace in every lab, since it is not known which one was meant. */
  async #guessed(inARow: number): Promise<void> {
    this.#wrongCodes++;
    if (inARow % noteAt !== 0) return;
    const note = { action: 'device.guessing', subject: { kind: 'station', id: 'station' }, details: { wrong: inARow } };
    for (const lab of ['lab', 'example'] as const)
      if (this.#labs.exists(lab)) await (await this.#labs.open(lab)).store.audit.add(note, stationActor);
  }

  #today(): string {
    return dateOf(new Date(this.#now()).toISOString() as UtcInstant);
  }
}

const idPattern = /^[0-9a-f-]{36}$/;

interface Found {
  readonly kept: Kept;
  readonly revision: number;
}

async function keptDevice({ store }: OpenLab, id: string): Promise<Found | undefined> {
  if (!idPattern.test(id)) return undefined;
  const found = await store.settings.get<Kept>(`${prefix}${id}`);
  return found && { kept: found.value, revision: found.revision };
}

/** The name of a device that is or was paired. */
export const deviceName = async (lab: OpenLab, id: string): Promise<string | undefined> =>
  (await keptDevice(lab, id))?.kept.name;

/**
 * Keeps a change of a pairing, and says in the audit trail what was done: both or neither. Refused with `changed-meanwhile` when the
 * pairing is not what was found any more: a device that was just taken off must not come back by a write that did not know it.
 */
async function keep(
  { store }: OpenLab,
  id: string,
  { kept, revision }: Found,
  changes: Partial<Kept>,
  actor: Actor,
  action?: string,
): Promise<Kept> {
  const changed = { ...kept, ...changes };
  await store.transaction(async ({ settings, audit }) => {
    await settings.set(`${prefix}${id}`, changed, actor, { expected: revision });
    if (action !== undefined)
      await audit.add({ action, subject: { kind: 'device', id }, details: { role: kept.role } }, actor);
  });
  return changed;
}

const hashOf = (secret: string): Buffer => createHash('sha256').update(secret).digest();
