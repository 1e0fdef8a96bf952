import type { Store } from '../store/store.ts';

/** Work that takes longer than an answer may: imports and analyses, in worker threads. */
export class Jobs {
  readonly store: Store;

  constructor(store: Store) {
    this.store = store;
  }

  async close(): Promise<void> {}
}
