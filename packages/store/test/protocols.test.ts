import { firstVersion, nextVersion, type ProtocolDocument, protocolReference, usualProtocol } from '@sthene/core';
import { expect, it } from 'vitest';
import { assistant, coach, onBothEngines } from './engines.ts';
import { oneTrial } from './fernwater.ts';

const failing = (code: string) => expect.objectContaining({ name: 'StoreError', code });
const shaOf = (document: ProtocolDocument) => protocolReference(document).sha256;
const usual = usualProtocol('imtp');
const boathouse = firstVersion({ ...usual, name: 'Boathouse pull' });

onBothEngines('protocols of a lab', (place) => {
  it('only grow: versions follow each other, and come back as they were, after a restart too', async () => {
    const here = await place();
    const first = await here.open();
    const added = await first.protocols.create(shaOf(boathouse), boathouse, coach);
    expect(added).toMatchObject({ name: 'Boathouse pull', test: 'imtp', archived: false, revision: 1 });
    const second = nextVersion(boathouse, { ...boathouse, rest: { minimum: 90, maximum: 600 }, note: 'Less waiting' });
    await first.protocols.succeed(added.id, shaOf(second), second, assistant);
    await first.close();
    const store = await here.open('b');
    expect((await store.protocols.versionsOf(added.id)).map(({ document, by }) => [document, by])).toEqual([
      [boathouse, coach.by],
      [second, assistant.by],
    ]);
    expect(await store.protocols.version(shaOf(second))).toMatchObject({ protocol: added.id, document: second });
    expect(await store.protocols.list()).toEqual([added]);
    await expect(here.run("update protocol_versions set name = 'Other'")).rejects.toThrow(/append-only/);
    await expect(here.run('delete from protocol_versions')).rejects.toThrow(/append-only/);
    expect(await store.audit.verifyRecords()).toEqual([]);
    expect((await store.audit.verify()).intact).toBe(true);
  });

  it('refuse a version that follows another one, a name and a document that are there already', async () => {
    const store = await (await place()).open();
    const { id } = await store.protocols.create(shaOf(boathouse), boathouse, coach);
    const second = nextVersion(boathouse, boathouse);
    await store.protocols.succeed(id, shaOf(second), second, coach);
    const late = nextVersion(boathouse, {
      ...boathouse,
      note: 'From an older screen',
      localRules: ['Two at the rig.'],
    });
    await expect(store.protocols.succeed(id, shaOf(late), late, coach)).rejects.toEqual(failing('changed-meanwhile'));
    await expect(store.protocols.succeed('nobody', shaOf(late), late, coach)).rejects.toEqual(failing('not-found'));
    await expect(store.protocols.create(shaOf(boathouse), boathouse, coach)).rejects.toEqual(failing('already-there'));
    const copy = firstVersion({ ...usual, name: 'Boathouse pull', localRules: ['Other'] });
    await expect(store.protocols.create(shaOf(copy), copy, coach)).rejects.toEqual(failing('already-there'));
    expect((await store.protocols.versionsOf(id)).map(({ document }) => document.version)).toEqual([1, 2]);
  });

  it('keep a new name with the version that brings it, and are archived and restored by name', async () => {
    const store = await (await place()).open();
    const { id } = await store.protocols.create(shaOf(boathouse), boathouse, coach);
    const renamed = nextVersion(boathouse, { ...boathouse, name: 'Boathouse, winter' });
    await store.protocols.succeed(id, shaOf(renamed), renamed, coach);
    expect(await store.protocols.get(id)).toMatchObject({ name: 'Boathouse, winter', revision: 2 });
    expect(await store.protocols.archive(id, true, assistant)).toMatchObject({ archived: true });
    expect(await store.protocols.archive(id, false, coach)).toMatchObject({ archived: false });
    const trail = await store.audit.list({ limit: 3 });
    expect(trail.map(({ action, by }) => [action, by])).toEqual([
      ['protocol.restore', coach.by],
      ['protocol.archive', assistant.by],
      ['protocol.version', coach.by],
    ]);
  });

  it('of the program are kept once, and sessions say by which version they were run', async () => {
    const store = await (await place()).open();
    await store.protocols.keep(shaOf(usual), usual, coach);
    await store.protocols.keep(shaOf(usual), { ...usual, summary: 'Said better.' }, coach);
    expect(await store.protocols.list()).toEqual([]);
    expect(await store.protocols.version(shaOf(usual))).toMatchObject({ document: usual });
    const { session } = await oneTrial(store);
    expect((await store.protocols.sessionCounts()).size).toBe(0);
    const protocol = { ...session.protocol, sha256: shaOf(usual) };
    await store.sessions.change(session.id, { protocol }, coach);
    expect(await store.sessions.get(session.id)).toMatchObject({ protocol });
    expect(await store.protocols.sessionCounts()).toEqual(new Map([[shaOf(usual), 1]]));
    expect(await store.protocols.sessionsOf(shaOf(usual), 10)).toEqual([session.id]);
    const nowhere = { ...protocol, sha256: 'c3'.repeat(32) };
    await expect(store.sessions.change(session.id, { protocol: nowhere }, coach)).rejects.toEqual(
      failing('refers-to-nothing'),
    );
  });
});
