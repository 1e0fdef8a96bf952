import type { SignalRange } from './signal-range.ts';

/** Fingers on the plot, by pointer, at their last place. One set: a page has one signal view. */
const fingers = new Map<number, number>();

/** One finger moves the window, two zoom it; vertical swipes still scroll the page. */
export function touchHandlers(range: SignalRange, onRange: (range: SignalRange) => void) {
  const secondsPerPixel = (event: PointerEvent) =>
    (range.to_s - range.from_s) / (event.currentTarget as HTMLElement).clientWidth;
  const release = (event: PointerEvent) => void fingers.delete(event.pointerId);
  return {
    onPointerDown: (event: PointerEvent) => {
      if (event.pointerType === 'touch') fingers.set(event.pointerId, event.clientX);
    },
    onPointerMove: (event: PointerEvent) => {
      const before = fingers.get(event.pointerId);
      if (before === undefined) return;
      const moved = event.clientX - before;
      if (fingers.size === 1) {
        const shift = -moved * secondsPerPixel(event);
        onRange({ from_s: range.from_s + shift, to_s: range.to_s + shift });
      } else {
        const other = [...fingers].find(([id]) => id !== event.pointerId)![1];
        const apart = Math.max(20, Math.abs(before - other));
        const factor = apart / Math.max(20, Math.abs(event.clientX - other));
        const middle = (range.from_s + range.to_s) / 2;
        const half = ((range.to_s - range.from_s) / 2) * factor;
        onRange({ from_s: middle - half, to_s: middle + half });
      }
      fingers.set(event.pointerId, event.clientX);
    },
    onPointerUp: release,
    onPointerCancel: release,
    onPointerLeave: release,
  };
}
