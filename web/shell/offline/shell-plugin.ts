import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

/** The service worker is an entry of its own, at a fixed address. */
export const WORKER_FILE = 'service-worker.js';
export const WORKER_SOURCE = fileURLToPath(new URL('service-worker.ts', import.meta.url));

/** Read by people, not by the view. */
const LEFT_OUT = ['third-party-notices.md', WORKER_FILE];

/** Puts the list of all of the view's files into the service worker. */
export function shellPlugin(): Plugin {
  let public_folder = '';
  return {
    name: 'shell',
    apply: 'build',
    configResolved(config) {
      public_folder = config.publicDir;
    },
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const built = Object.values(bundle).map((file) => ({
          url: `/${file.fileName}`,
          bytes: file.type === 'chunk' ? file.code : file.source,
        }));
        const copied = readdirSync(public_folder).map((name) => ({
          url: `/${name}`,
          bytes: readFileSync(`${public_folder}/${name}`),
        }));
        const files = [...built, ...copied]
          .filter(({ url }) => !LEFT_OUT.includes(url.slice(1)))
          .sort((a, b) => (a.url < b.url ? -1 : 1))
          // Names in `assets` carry a hash of their content.
          .map(({ url, bytes }) => ({ url, revision: url.startsWith('/assets/') ? null : revisionOf(bytes) }));
        const worker = bundle[WORKER_FILE];
        if (worker?.type !== 'chunk') throw new Error(`the build made no ${WORKER_FILE}`);
        worker.code = worker.code.replaceAll('SHELL_FILES', JSON.stringify(files));
      },
    },
  };
}

function revisionOf(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex').slice(0, 16);
}
