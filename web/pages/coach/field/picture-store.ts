/**
 * Pictures on this device, which are too large for what small values are kept in. Where the browser has no database (private windows of
 * some) they last until the page is closed.
 */
const DATABASE = 'cinderlane.pictures';
const STORE = 'waiting';

let opened: Promise<IDBDatabase | null> | null = null;

function open(): Promise<IDBDatabase | null> {
  opened ??= new Promise((resolve) => {
    try {
      const request = indexedDB.open(DATABASE, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(STORE);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => resolve(null);
    } catch {
      resolve(null);
    }
  });
  return opened;
}

/** Runs one request on the store; null where there is none, or where it failed. */
async function ask<T>(mode: IDBTransactionMode, request: (store: IDBObjectStore) => IDBRequest<T>): Promise<T | null> {
  const database = await open();
  if (!database) return null;
  return new Promise((resolve) => {
    const transaction = database.transaction(STORE, mode);
    const asked = request(transaction.objectStore(STORE));
    transaction.oncomplete = () => resolve(asked.result);
    transaction.onerror = () => resolve(null);
    transaction.onabort = () => resolve(null);
  });
}

/** Everything that is kept. */
export async function readPictures<T>(): Promise<T[]> {
  return (await ask('readonly', (store) => store.getAll() as IDBRequest<T[]>)) ?? [];
}

export async function storePicture(key: string, value: unknown): Promise<void> {
  await ask('readwrite', (store) => store.put(value, key));
}

export async function deletePicture(key: string): Promise<void> {
  await ask('readwrite', (store) => store.delete(key));
}
