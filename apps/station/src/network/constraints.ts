import { BlockList, isIP, isIPv4 } from 'node:net';
import { AsnConvert } from '@peculiar/asn1-schema';
import {
  GeneralName,
  GeneralSubtree,
  GeneralSubtrees,
  id_ce_nameConstraints,
  NameConstraints,
} from '@peculiar/asn1-x509';
import type { OwnNames } from './own-names.ts';

/**
 * What an authority may vouch for. A device that trusts the authority trusts it for these names only, so a stolen key is of
 * no use against a bank: private address ranges, the names that only exist inside a local network, and what this machine
 * was called when the authority was made.
 */
export interface Permitted {
  /** A name permits itself and whatever ends in a dot and it. */
  readonly names: readonly string[];
  /** `10.0.0.0/8`. */
  readonly ranges: readonly string[];
}

/** RFC 1918, RFC 4193; RFC 6762 (local), RFC 8375 (home.arpa), the reserved `internal`; `lan` by common use of routers. */
const localNames = ['local', 'lan', 'internal', 'home.arpa'];
const localRanges = ['10.0.0.0/8', '172.16.0.0/12', '192.168.0.0/16', 'fc00::/7'];

export function permittedFor(own: OwnNames): Permitted {
  const base: Permitted = { names: localNames, ranges: localRanges };
  const outside = own.addresses.filter((address) => !permits(base, address));
  return {
    names: [...localNames, ...own.names.filter((name) => !permits(base, name))],
    ranges: [...localRanges, ...outside.map((address) => `${address}/${isIPv4(address) ? 32 : 128}`)],
  };
}

/** Whether an authority may vouch for a name or an address. */
export function permits({ names, ranges }: Permitted, asked: string): boolean {
  if (isIP(asked) === 0) return names.some((name) => asked === name || asked.endsWith(`.${name}`));
  const list = new BlockList();
  for (const range of ranges) {
    const [address = '', bits] = range.split('/');
    list.addSubnet(address, Number(bits), isIPv4(address) ? 'ipv4' : 'ipv6');
  }
  return list.check(asked, isIPv4(asked) ? 'ipv4' : 'ipv6');
}

/** The extension as it stands in the certificate (RFC 5280, 4.2.1.10). */
export function encodeConstraints({ names, ranges }: Permitted): {
  readonly type: string;
  readonly value: ArrayBuffer;
} {
  const bases = [
    ...names.map((name) => new GeneralName({ dNSName: name })),
    ...ranges.map((range) => new GeneralName({ iPAddress: range })),
  ];
  const permittedSubtrees = new GeneralSubtrees(bases.map((base) => new GeneralSubtree({ base })));
  return { type: id_ce_nameConstraints, value: AsnConvert.serialize(new NameConstraints({ permittedSubtrees })) };
}

/** What the certificate of an authority says it may vouch for. */
export function decodeConstraints(value: ArrayBuffer | undefined): Permitted {
  if (value === undefined) return { names: [], ranges: [] };
  const trees = AsnConvert.parse(value, NameConstraints).permittedSubtrees ?? [];
  return {
    names: trees.flatMap(({ base }) => base.dNSName ?? []),
    ranges: trees.flatMap(({ base }) => base.iPAddress ?? []),
  };
}
