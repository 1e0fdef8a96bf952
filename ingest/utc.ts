/** Seconds since 1970 of an ISO 8601 instant, with the microseconds that Date.parse drops. */
export function utcSeconds(text: string): number {
  const fraction = /\.(\d+)/.exec(text)?.[1] ?? '0';
  return Math.floor(Date.parse(text) / 1000) + Number(`0.${fraction}`);
}

/** ISO 8601 with microseconds, which a plain Date cannot hold. */
export function utc(seconds: number): string | null {
  const whole = Math.floor(seconds);
  const micros = Math.round((seconds - whole) * 1e6);
  const date = new Date((whole + (micros === 1e6 ? 1 : 0)) * 1000);
  if (Number.isNaN(date.getTime())) return null;
  return `${date.toISOString().slice(0, 19)}.${String(micros === 1e6 ? 0 : micros).padStart(6, '0')}Z`;
}
