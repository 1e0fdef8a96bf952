/** Waits for a promise, but not for ever. @throws Error naming what was waited for */
export async function within<T>(promise: Promise<T> | undefined, limit_ms: number, what: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`${what}: no answer within ${limit_ms / 1000} s`)), limit_ms);
  });
  try {
    return await Promise.race([promise as Promise<T>, limit]);
  } finally {
    clearTimeout(timer);
  }
}
