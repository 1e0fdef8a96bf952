import type { Store } from './store.ts';

export interface OpenOptions {
  /** How long another program that holds the database is waited for, milliseconds. */
  wait_ms?: number;
}

export interface OpenedStore {
  store: Store;
  /** Closes it, and takes away what was made for it. */
  close(): void;
}
