import { z } from 'zod';
import { labId } from '../api/lab.ts';
import type { Route } from '../api/routes.ts';
import {
  accessView,
  codeDraft,
  deviceList,
  deviceRename,
  madeCode,
  pairedDevice,
  pairRequest,
  signedBy,
} from './devices.ts';
import { networkSwitch, networkView } from './network.ts';

const route = <P, Q, B, R>(definition: Route<P, Q, B, R>): Route<P, Q, B, R> => definition;

const inLab = z.object({ lab: labId });
const inLabById = z.object({ lab: labId, id: z.string().max(100) });

/** Routes of devices, pairing and the network. */
export const accessRoutes = {
  access: route({
    method: 'GET',
    path: '/api/access',
    summary: 'Whether this is the station itself, and which paired device asks',
    response: accessView,
  }),
  /** Sets the cookie that the device is known by from then on. */
  pair: route({
    method: 'POST',
    path: '/api/pair',
    summary: 'Pair this device with a one-time code',
    body: pairRequest,
    response: accessView,
  }),
  leave: route({
    method: 'DELETE',
    path: '/api/access',
    summary: 'Give up the pairing of this device',
    response: accessView,
  }),
  devices: route({
    method: 'GET',
    path: '/api/labs/:lab/devices',
    summary: 'Paired devices, and codes that wait to be used',
    params: inLab,
    response: deviceList,
  }),
  makeCode: route({
    method: 'POST',
    path: '/api/labs/:lab/devices/codes',
    summary: 'Make a one-time code for a device with a name and a role',
    params: inLab,
    body: codeDraft,
    response: madeCode,
  }),
  withdrawCode: route({
    method: 'DELETE',
    path: '/api/labs/:lab/devices/codes/:id',
    summary: 'Withdraw a code that was not used',
    params: inLabById,
    response: deviceList,
  }),
  renameDevice: route({
    method: 'PUT',
    path: '/api/labs/:lab/devices/:id',
    summary: 'Give a paired device another name',
    params: inLabById,
    body: deviceRename,
    response: pairedDevice,
  }),
  revokeDevice: route({
    method: 'POST',
    path: '/api/labs/:lab/devices/:id/revoke',
    summary: 'Take a device off: its live connections end at once and its cookie is worth nothing',
    params: inLabById,
    body: signedBy,
    response: pairedDevice,
  }),
  network: route({
    method: 'GET',
    path: '/api/network',
    summary: 'Whether other devices can reach the station, under which addresses, and its certificate authority',
    response: networkView,
  }),
  switchNetwork: route({
    method: 'PUT',
    path: '/api/network',
    summary: 'Open or close the station to devices on the network, over TLS',
    body: networkSwitch,
    response: networkView,
  }),
  /** DER, `application/x-x509-ca-cert`. It is public: it holds no key. */
  authorityFile: route({
    method: 'GET',
    path: '/api/network/sthene-authority.crt',
    summary: "Certificate of the station's own authority",
  }),
  /** The same certificate as a configuration profile, `application/x-apple-aspen-config`. */
  authorityProfile: route({
    method: 'GET',
    path: '/api/network/sthene-authority.mobileconfig',
    summary: "Certificate of the station's own authority as a profile for iPadOS, iOS and macOS",
  }),
};
