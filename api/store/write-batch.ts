import type { Store } from './store.ts';

/** Changes that wait at most for each other, and how long the first of them waits, ms. */
const MOST = 32;
const LONGEST_WAIT_MS = 200;

interface Waiting {
  work: () => unknown;
  resolve: (result: never) => void;
  reject: (error: unknown) => void;
}

/**
 * Collects changes and commits several at a time. A commit waits for the disk, some 10 ms in which nothing else is written and no thread
 * is given its next task; results that come many a second would spend their time on that. What was not yet committed when the
 * program ends is done again: for changes that are noted with what they belong to.
 */
export class WriteBatch {
  readonly #store: Store;
  readonly #waiting: Waiting[] = [];
  #timer: NodeJS.Timeout | undefined;

  constructor(store: Store) {
    this.#store = store;
  }

  /**
   * Takes a change up. Each is all or nothing by itself: one that throws leaves the others of its batch as they are.
   * @returns what it answers, once it is committed
   */
  add<Result>(work: () => Result): Promise<Result> {
    return new Promise<Result>((resolve, reject) => {
      this.#waiting.push({ work, resolve, reject });
      if (this.#waiting.length >= MOST) this.flush();
      else this.#timer ??= setTimeout(() => this.flush(), LONGEST_WAIT_MS);
    });
  }

  /** Commits what waits. */
  flush(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const batch = this.#waiting.splice(0);
    if (batch.length === 0) return;
    const settle: (() => void)[] = [];
    try {
      this.#store.transaction(() => {
        for (const { work, resolve, reject } of batch) {
          try {
            const result = this.#store.transaction(work);
            settle.push(() => resolve(result as never));
          } catch (error) {
            settle.push(() => reject(error));
          }
        }
      });
    } catch (error) {
      // The whole batch is undone, such as by a full disk.
      for (const { reject } of batch) reject(error);
      return;
    }
    for (const tell of settle) tell();
  }
}
