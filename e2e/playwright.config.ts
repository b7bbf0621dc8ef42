import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';
import { BROWSER_SWITCHES, findBrowser } from '../tests/harness/tools.ts';

/** The journeys run against the built app (`npm run build`), served from this machine only. */
const port = Number(process.env.UNDERPAPER_PORT ?? 4317);
const browser = findBrowser();

export default defineConfig({
  testDir: '.',
  outputDir: '../test-results',
  forbidOnly: true,
  fullyParallel: true,
  workers: 2,
  // For a machine five times as slow as the usual one.
  timeout: 180_000,
  expect: { timeout: 30_000 },
  reporter: 'list',
  use: {
    baseURL: `http://127.0.0.1:${port}`,
    viewport: { width: 1280, height: 800 },
    acceptDownloads: true,
    screenshot: 'only-on-failure',
    launchOptions: {
      args: [...BROWSER_SWITCHES],
      ...(browser?.path ? { executablePath: browser.path } : {}),
    },
  },
  webServer: {
    command: `npx vite preview --host 127.0.0.1 --port ${port} --strictPort`,
    cwd: fileURLToPath(new URL('..', import.meta.url)),
    url: `http://127.0.0.1:${port}`,
    reuseExistingServer: false,
    timeout: 30_000,
  },
});
