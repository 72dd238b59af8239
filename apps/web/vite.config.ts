import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

// Everything comes from the sources, so that a build can go on beside the one of the packages.
export default defineConfig({
  plugins: [react()],
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  // Nothing is inlined as a data: address, so that the content policy can stay at 'self'.
  build: { assetsInlineLimit: 0, target: 'es2022', sourcemap: false, modulePreload: { polyfill: false } },
});
