/** A seeded source of chance: the same seed gives the same club, athlete, step and noise on every machine. */
export interface Random {
  /** Uniform in [low, high). */
  uniform(low: number, high: number): number;
  /** Normal with the given mean and standard deviation. */
  normal(mean: number, sd: number): number;
  /** Normal, but never further than `limit` standard deviations from the mean. */
  within(mean: number, sd: number, limit?: number): number;
  integer(low: number, high: number): number;
  pick<T>(items: readonly T[]): T;
  /** An independent source, named so that adding one draw elsewhere changes nothing here. */
  fork(name: string): Random;
}

function hashText(text: string, seed: number): number {
  let hash = (2166136261 ^ seed) >>> 0;
  for (let i = 0; i < text.length; i++) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 16777619) >>> 0;
  }
  return hash;
}

/**
 * sfc32 (Doty-Humphrey's small fast counter, public domain): 128 bits of state, passes the usual test batteries.
 * @param seed any integer
 */
export function makeRandom(seed: number): Random {
  let a = hashText('a', seed);
  let b = hashText('b', seed);
  let c = hashText('c', seed);
  let counter = 1;
  const next = (): number => {
    const t = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + t;
    c |= 0;
    return (t >>> 0) / 4294967296;
  };
  for (let i = 0; i < 16; i++) next();
  const standardNormal = (): number => {
    const radius = Math.sqrt(-2 * Math.log(1 - next()));
    return radius * Math.cos(2 * Math.PI * next());
  };
  return {
    uniform: (low, high) => low + (high - low) * next(),
    normal: (mean, sd) => mean + sd * standardNormal(),
    within(mean, sd, limit = 2) {
      let z = standardNormal();
      while (Math.abs(z) > limit) z = standardNormal();
      return mean + sd * z;
    },
    integer: (low, high) => low + Math.floor((high - low + 1) * next()),
    pick: (items) => items[Math.floor(items.length * next())],
    fork: (name) => makeRandom(hashText(name, seed)),
  };
}
