/**
 * Keeps the whole view on the device, so that it opens without network; the API is never answered from here, since what is
 * shown must be what the server said, with its age. `shell-plugin.ts` puts the list of files in.
 */
import { cleanupOutdatedCaches, precacheAndRoute } from 'workbox-precaching';

/** Every file of the view, put in by the build. */
declare const SHELL_FILES: { url: string; revision: string | null }[];

interface Worker {
  addEventListener(
    type: 'install' | 'activate',
    take: (event: { waitUntil(work: Promise<unknown>): void }) => void,
  ): void;
  skipWaiting(): Promise<void>;
  clients: { claim(): Promise<void> };
}
declare const self: Worker;

precacheAndRoute(SHELL_FILES);
cleanupOutdatedCaches();
// A new version serves at once; pages that stand open take it up at their next step (`keep-shell.ts`).
self.addEventListener('install', (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
