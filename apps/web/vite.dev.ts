import { defineConfig, mergeConfig } from 'vite';
import { mockLive } from './dev/mock-live.ts';
import { mockStation } from './dev/mock-station.ts';
import build from './vite.config.ts';

/** With STHENE_STATION set (an address), development talks to that station; without it, to the simulated one in dev/. */
const station = process.env.STHENE_STATION;

export default mergeConfig(
  build,
  defineConfig({
    plugins: station ? [] : [mockStation(), mockLive()],
    server: station ? { proxy: { '/api': { target: station, ws: true } } } : {},
  }),
);
