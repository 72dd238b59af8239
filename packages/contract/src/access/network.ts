import { z } from 'zod';

/** An address under which other devices reach the station. */
export const networkAddress = z.object({
  /** Ends with a slash. */
  url: z.string(),
  /** `name` stays when the router hands out another number; not every network can look it up. */
  kind: z.enum(['number', 'name']),
});

/** The station on the network: whether its door is open, and the certificate authority behind it. */
export const networkView = z.object({
  /** As the operator wants it; remembered over restarts. */
  on: z.boolean(),
  /** Whether the door is open at this moment. */
  open: z.boolean(),
  /** Why it is not open although it should be. */
  problem: z.object({ code: z.string(), detail: z.string(), next: z.string() }).optional(),
  port: z.number().optional(),
  addresses: z.array(networkAddress),
  /** Addresses of this machine that the authority may not vouch for, and that are therefore not answered. */
  uncovered: z.array(z.string()),
  /** Present once it was made, which happens when the network is switched on for the first time. */
  authority: z
    .object({
      name: z.string(),
      /** SHA-256 of the certificate: 32 bytes as `AB:CD:...`. */
      fingerprint: z.string(),
      until: z.string(),
    })
    .optional(),
  /** The station's own certificate, renewed by itself. */
  certificate: z.object({ names: z.array(z.string()), until: z.string() }).optional(),
});

export const networkSwitch = z.object({ on: z.boolean(), by: z.string().min(1).max(100) });

export type NetworkView = z.infer<typeof networkView>;
export type NetworkAddress = z.infer<typeof networkAddress>;
