import { accessRoutes, liveRoutes, type Route } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { mayAsk } from './access.ts';

const device = { id: 'd1', name: 'Tablet by the rack', role: 'viewer' as const, lab: 'lab' as const };
type Any = Route<unknown, unknown, unknown, unknown>;

describe('what screens offer', () => {
  it('is everything on the station, and on a device what the station says and nothing more', () => {
    const every = Object.values({ ...liveRoutes, ...accessRoutes }) as unknown as Any[];
    expect(every.length).toBeGreaterThan(30);
    for (const route of every) {
      const address = `${route.method} ${route.path}`;
      expect(mayAsk({ place: 'station' }, route), address).toBe(true);
      expect(mayAsk({ place: 'network', device, may: [address] }, route), address).toBe(true);
      // Not told is not allowed: also where an older station tells nothing at all.
      expect(mayAsk({ place: 'network', device, may: [] }, route), address).toBe(false);
      expect(mayAsk({ place: 'network', device }, route), address).toBe(false);
    }
  });
});
