import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { mockLive } from './dev/mock-live.ts';
import { mockStation } from './dev/mock-station.ts';

/** With STHENE_STATION set (an address), development talks to that station; without it, to the simulated one in dev/. */
const station = process.env.STHENE_STATION;

export default defineConfig({
  plugins: [react(), ...(station ? [] : [mockStation(), mockLive()])],
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  server: station ? { proxy: { '/api': { target: station, ws: true } } } : {},
  // Nothing is inlined as a data: address, so that the content policy can stay at 'self'.
  build: { assetsInlineLimit: 0, target: 'es2022', sourcemap: false, modulePreload: { polyfill: false } },
});
