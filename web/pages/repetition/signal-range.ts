/** A window of time on the common clock, seconds. */
export interface SignalRange {
  from_s: number;
  to_s: number;
}

/** Narrowest window: a few samples of a fast sensor. */
const LEAST_S = 0.02;

/** Keeps a window inside the recording, as wide as it was where it fits. */
export function clampRange(range: SignalRange, whole: SignalRange): SignalRange {
  const width = Math.min(Math.max(LEAST_S, range.to_s - range.from_s), whole.to_s - whole.from_s);
  const from_s = Math.min(Math.max(range.from_s, whole.from_s), whole.to_s - width);
  return { from_s, to_s: from_s + width };
}

/** Zooms about a place (default: the middle); factor below 1 comes closer. */
export function zoomRange(range: SignalRange, factor: number, about_s = (range.from_s + range.to_s) / 2): SignalRange {
  return { from_s: about_s - (about_s - range.from_s) * factor, to_s: about_s + (range.to_s - about_s) * factor };
}

/** Moves by a share of the window's width. */
export function panRange(range: SignalRange, share: number): SignalRange {
  const shift = (range.to_s - range.from_s) * share;
  return { from_s: range.from_s + shift, to_s: range.to_s + shift };
}

/** What a key does to the window; null when the key means nothing here. */
export function keyRange(key: string, range: SignalRange, whole: SignalRange): SignalRange | null {
  if (key === 'ArrowLeft') return panRange(range, -0.2);
  if (key === 'ArrowRight') return panRange(range, 0.2);
  if (key === '+' || key === '=' || key === 'ArrowUp') return zoomRange(range, 0.5);
  if (key === '-' || key === '_' || key === 'ArrowDown') return zoomRange(range, 2);
  if (key === '0' || key === 'Home') return whole;
  return null;
}
