import { useEffect, useState } from 'preact/hooks';

/**
 * This device's clock, anew every second.
 * @param ticking false: stands still, and nothing is drawn anew
 * @param every_ms how often
 */
export function useNow(ticking = true, every_ms = 1000): number {
  const [now, setNow] = useState(Date.now());
  useEffect(() => {
    if (!ticking) return;
    setNow(Date.now());
    const timer = setInterval(() => setNow(Date.now()), every_ms);
    return () => clearInterval(timer);
  }, [ticking, every_ms]);
  return now;
}
