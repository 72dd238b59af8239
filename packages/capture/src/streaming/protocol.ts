/**
 * Facts of the open lab streaming layer protocol, version 1.10. Source: the protocol's documented bytes, as the methods reference of this
 * project lists them (its section on open streaming). What stands here from memory says so.
 */
export const protocolVersion = 110;

/** UDP port on which every sender hears queries. */
export const queryPort = 16_571;
/** First of the ports on which senders offer data (TCP) and answer queries and time probes (UDP), and how many there are. */
export const servicePort = 16_572;
export const servicePorts = 32;

/** IPv4 addresses a query goes to where no host is named: multicast groups, the own network, this machine. */
export const queryGroups = ['224.0.0.1', '224.0.0.183', '239.255.172.215'] as const;
export const broadcastAddress = '255.255.255.255';
export const ownAddress = '127.0.0.1';
/** Hops a multicast query may take. */
export const queryHops = 24;

/** How samples are encoded, by the names the stream info uses, with the bytes of one value; 0: as long as it is. */
export const valueBytes = {
  float32: 4,
  double64: 8,
  string: 0,
  int32: 4,
  int16: 2,
  int8: 1,
  int64: 8,
} as const;

export type StreamFormat = keyof typeof valueBytes;
export const streamFormats = Object.keys(valueBytes) as StreamFormat[];

/** Session of senders and receivers that name none (from memory). */
export const usualSession = 'default';

/** Most that is believed of a stranger: channels, bytes of a stream info, bytes of a text value. */
export const mostChannels = 1024;
export const longestInfo = 1 << 20;
export const longestText = 1 << 16;
