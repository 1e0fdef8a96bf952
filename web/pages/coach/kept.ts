/** Small values kept on this device. With storage switched off they last until the page is closed. */
const memory = new Map<string, string>();
const PREFIX = 'cinderlane.coach.';

/** What was kept under the name, or null. */
export function readKept<T>(name: string): T | null {
  try {
    const text = localStorage.getItem(PREFIX + name) ?? memory.get(name);
    return text ? (JSON.parse(text) as T) : null;
  } catch {
    return null;
  }
}

export function keep(name: string, value: unknown): void {
  const text = JSON.stringify(value);
  memory.set(name, text);
  try {
    localStorage.setItem(PREFIX + name, text);
  } catch {
    // Storage is full or switched off: memory serves for this visit.
  }
}
