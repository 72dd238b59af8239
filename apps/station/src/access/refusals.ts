import { ProblemError } from '../server/problem-error.ts';
import type { Rank } from './rights.ts';

const askForCode = 'Ask at the station for a code, then open /pair here and type it in or scan it.';

/** What a device on the network can be told. Codes are permanent; docs/reference/errors-devices.md lists them. */
export const accessRefusals = {
  notPaired: () => new ProblemError(401, 'not-paired', 'This device is not paired with the station.', askForCode),
  revoked: () =>
    new ProblemError(
      401,
      'device-revoked',
      'This device was taken off the station.',
      `Nothing was lost. ${askForCode}`,
    ),
  otherLab: () =>
    new ProblemError(
      403,
      'device-other-lab',
      'This device was paired with another lab of the station.',
      'Open the lab it was paired with, or pair it anew.',
    ),
  rank: (has: Rank, needed: Rank) =>
    new ProblemError(
      403,
      'role-not-enough',
      `This device is paired as ${has}.`,
      needed === 'station'
        ? 'Nothing was changed. This is done on the station itself.'
        : `Nothing was changed. Do it on the station, or pair this device as ${needed}.`,
    ),
  codeWrong: () =>
    new ProblemError(
      404,
      'code-wrong',
      'This code is not one of the station.',
      'Compare it sign by sign. A code works once and for ten minutes; the station makes a new one at any time.',
    ),
  codeExpired: () =>
    new ProblemError(
      410,
      'code-expired',
      'This code is more than ten minutes old.',
      'Ask at the station for a new one.',
    ),
  wait: (seconds: number) =>
    new ProblemError(
      429,
      'code-wait',
      'Too many wrong codes came from this device.',
      `Wait ${seconds} s, then try again. Other devices and the station itself are not held up.`,
    ),
  isStation: () =>
    new ProblemError(
      409,
      'is-station',
      'This is the station itself; it needs no pairing.',
      'Open the address on the other device.',
    ),
  noDevice: () =>
    new ProblemError(404, 'device-unknown', 'There is no such device.', 'Look at the list of devices again.'),
};
