let wanted = 0;
let lock: WakeLockSentinel | null = null;

/** Where it is refused (low battery, plain http) the page works as before, and the screen goes dark in its own time. */
async function ask(): Promise<void> {
  if (wanted === 0 || (lock !== null && !lock.released)) return;
  lock = (await navigator.wakeLock?.request('screen').catch(() => null)) ?? null;
}

document.addEventListener('visibilitychange', () => {
  // The system takes the lock away while the page is hidden.
  if (document.visibilityState === 'visible') void ask();
});

/**
 * Keeps the screen on from now on.
 * @returns what ends it
 */
export function stayAwake(): () => void {
  wanted++;
  void ask();
  let ended = false;
  return () => {
    if (ended) return;
    ended = true;
    wanted--;
    if (wanted > 0) return;
    void lock?.release();
    lock = null;
  };
}
