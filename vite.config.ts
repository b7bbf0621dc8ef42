import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, relative } from 'node:path';
import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

/** All that the built page may load comes from where it came from itself; nothing is sent anywhere. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "font-src 'self' data:",
  "connect-src 'self'",
  "img-src 'self' data: blob:",
  'frame-src blob:',
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const withPolicy = (): Plugin => ({
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    // First in the head, so that it holds for all that follows.
    handler: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: POLICY },
        injectTo: 'head-prepend',
      },
    ],
  },
});

/** The program of the first screen and its styles are asked for at once, while the language is still being settled. */
const preloadPage = (): Plugin => ({
  name: 'preload-page',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler: (_, { bundle = {} }) => {
      const chunks = Object.values(bundle).filter((file) => file.type === 'chunk');
      const wanted = chunks.filter(({ facadeModuleId }) =>
        /\/src\/(page|views\/block\/block-place)\.tsx$/.test(facadeModuleId ?? ''),
      );
      const files = new Set(wanted.map(({ fileName }) => fileName));
      for (const name of files)
        for (const { imports } of chunks.filter(({ fileName }) => fileName === name))
          for (const needed of imports) files.add(needed);
      const styles = new Set(
        chunks
          .filter(({ fileName }) => files.has(fileName))
          .flatMap(({ viteMetadata }) => [...(viteMetadata?.importedCss ?? [])]),
      );
      return [
        ...Array.from(files, (name) => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `./${name}` },
          injectTo: 'head' as const,
        })),
        ...Array.from(styles, (name) => ({
          tag: 'link',
          attrs: { rel: 'stylesheet', crossorigin: true, href: `./${name}` },
          injectTo: 'head' as const,
        })),
      ];
    },
  },
});

/** Notices of the licences of every library that the app is built from. */
function licences(): string {
  const lock = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
    packages: Record<string, { dev?: boolean; optional?: boolean; version?: string; license?: string }>;
  };
  const notices = Object.entries(lock.packages).flatMap(([path, { dev, optional, version, license }]) => {
    if (path === '' || dev === true || optional === true || !existsSync(path)) return [];
    const file = readdirSync(path).find((name) => /^(licen[cs]e|copying)/i.test(name));
    const text = file === undefined ? '' : readFileSync(join(path, file), 'utf8').trim();
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    return [`${name} ${version ?? ''} (${license ?? 'see below'})\n\n${text}`];
  });
  return `${readFileSync('LICENSE', 'utf8').trim()}\n\nUnderpaper is built with these libraries.\n\n${notices.join('\n\n----\n\n')}\n`;
}

const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true }).flatMap((entry) =>
    entry.isFile() ? [relative(folder, join(entry.parentPath, entry.name))] : [],
  );

/** The page without a network: a worker that knows every file of this very build. */
const offline = (): Plugin => ({
  name: 'offline',
  apply: 'build',
  enforce: 'post',
  generateBundle(_, bundle) {
    this.emitFile({ type: 'asset', fileName: 'licences.txt', source: licences() });
    const built = Object.keys(bundle).filter((name) => !/\.map$|^index\.html$/.test(name));
    const files = ['./', ...built, ...filesBelow('public'), 'licences.txt'];
    const hash = createHash('sha256').update(files.join('\n'));
    for (const name of filesBelow('public')) hash.update(readFileSync(join('public', name)));
    hash.update(readFileSync('index.html'));
    const source = readFileSync('src/offline-worker.js', 'utf8')
      .replace("'VERSION'", JSON.stringify(hash.digest('hex').slice(0, 16)))
      .replace("['FILES']", JSON.stringify([...new Set(files)]));
    this.emitFile({ type: 'asset', fileName: 'offline-worker.js', source });
  },
});

export default defineConfig({
  plugins: [react(), withPolicy(), preloadPage(), offline()],
  base: './',
  worker: { format: 'es' },
  // Known from the start: one that is found on the way has the page of `npm start` loaded anew.
  optimizeDeps: { include: ['comlink', 'fflate', 'fontkit', 'intl-messageformat', 'pdfkit', 'polylabel'] },
  build: {
    target: 'es2022',
    sourcemap: true,
    // The first screen's is a single one, packed to a third.
    chunkSizeWarningLimit: 1_000,
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            { name: 'start', test: /\/src\/(words|workspace)\/language\.ts/, priority: 2 },
            // What the first screen needs, packed as one: that is smaller and asked for once.
            { name: 'first', test: /\/src\/(page|views\/block\/block-place)\.tsx/, priority: 1 },
          ],
        },
      },
    },
  },
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    testTimeout: 60_000,
    // Two at least: a machine of two cores would otherwise be given one worker and take twice as long.
    maxWorkers: Math.max(2, availableParallelism() - 1),
  },
});
