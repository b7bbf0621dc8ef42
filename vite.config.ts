import { availableParallelism } from 'node:os';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [react()],
  base: './',
  worker: { format: 'es' },
  // Known from the start: one that is found on the way has the page of `npm start` loaded anew.
  optimizeDeps: { include: ['comlink', 'fflate', 'fontkit', 'pdfkit', 'polylabel'] },
  build: { target: 'es2022', sourcemap: true },
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    testTimeout: 60_000,
    // Two at least: a machine of two cores would otherwise be given one worker and take twice as long.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
