import { accessRoutes as r } from '@sthene/contract';
import type { FastifyInstance } from 'fastify';
import { cookieName, type Door, giveToken, takeToken } from '../access/control.ts';
import { accessRefusals } from '../access/refusals.ts';
import { addressesOf } from '../access/rights.ts';
import type { OpenLab } from '../labs/open-lab.ts';
import type { Network } from '../network/network.ts';
import { profileOf } from '../network/profile.ts';
import { problems } from '../server/problem-error.ts';
import type { Station } from '../work/station.ts';
import { register, registerBytes } from './register.ts';

/** Addresses of pairing, devices and the network. */
export function registerAccessRoutes(server: FastifyInstance, station: Station, network: Network, door: Door): void {
  const { devices } = station;
  const place = door === 'machine' ? ('station' as const) : ('network' as const);

  register(server, r.access, async ({ caller, reply, request }) => {
    const token = request.cookies[cookieName];
    if (caller.device === undefined || token === undefined)
      return { place, ...(caller.revoked ? { revoked: true } : {}) };
    giveToken(reply, token);
    return { place, device: caller.device, may: addressesOf(caller.rank) };
  });
  register(server, r.pair, async ({ body, reply, request }) => {
    if (door === 'machine') throw accessRefusals.isStation();
    const { view, token } = await devices.pair(body.code, request.socket.remoteAddress ?? '');
    giveToken(reply, token);
    return { ...view, may: view.device === undefined ? [] : addressesOf(view.device.role) };
  });
  register(server, r.leave, async ({ caller, reply }) => {
    if (caller.device !== undefined) await devices.leave(caller.device);
    takeToken(reply);
    return { place };
  });

  register(server, r.devices, async ({ params }) => devices.list(params.lab));
  register(server, r.makeCode, async ({ params, body }) => devices.makeCode(params.lab, body));
  register(server, r.withdrawCode, async ({ params }) => {
    devices.codes.withdraw(params.lab, params.id);
    return devices.list(params.lab);
  });
  register(server, r.renameDevice, async ({ params, body }) =>
    devices.rename(params.lab, params.id, body.name, body.by),
  );
  register(server, r.revokeDevice, async ({ params, body }) => devices.revoke(params.lab, params.id, body.by));

  register(server, r.network, async () => network.view());
  register(server, r.switchNetwork, async ({ body }) => {
    await network.switch(body.on);
    const action = body.on ? 'network.open' : 'network.close';
    for (const lab of await existingLabs(station))
      await lab.store.audit.add({ action, subject: { kind: 'station', id: 'station' } }, await lab.actor(body.by));
    return network.view();
  });
  registerBytes(server, r.authorityFile, async ({ reply }) =>
    reply
      .type('application/x-x509-ca-cert')
      .header('content-disposition', 'attachment; filename="sthene-authority.crt"')
      .send((await authorityOf(network)).der),
  );
  registerBytes(server, r.authorityProfile, async ({ reply }) => {
    const { der, name } = await authorityOf(network);
    return reply
      .type('application/x-apple-aspen-config')
      .header('content-disposition', 'attachment; filename="sthene-authority.mobileconfig"')
      .send(profileOf(name, der));
  });
}

async function authorityOf(network: Network) {
  const file = await network.authorityFile();
  if (file === undefined) throw problems.notFound('certificate authority yet');
  return file;
}

async function existingLabs({ labs }: Station): Promise<OpenLab[]> {
  const there = (['lab', 'example'] as const).filter((id) => labs.exists(id));
  return Promise.all(there.map((id) => labs.open(id)));
}
