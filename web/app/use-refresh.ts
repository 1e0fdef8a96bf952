import { useEffect } from 'preact/hooks';

/**
 * Reads again while something is under way, and whenever the page comes back into sight.
 * @param every_ms null: only on coming back
 */
export function useRefresh(reload: () => Promise<void>, every_ms: number | null): void {
  useEffect(() => {
    const onShown = () => {
      if (document.visibilityState === 'visible') void reload();
    };
    document.addEventListener('visibilitychange', onShown);
    const timer = every_ms === null ? undefined : setInterval(onShown, every_ms);
    return () => {
      document.removeEventListener('visibilitychange', onShown);
      clearInterval(timer);
    };
  }, [reload, every_ms]);
}
