/** Seeded damage to inputs: bytes, text, JSON, and values made from a JSON schema. */

export type Random = () => number;
export const below = (random: Random, n: number): number => Math.floor(random() * n);
export const pick = <T>(random: Random, items: readonly T[]): T => items[below(random, items.length)];

const ODD_TEXTS = [
  '',
  '0',
  '-1',
  '1e999',
  'NaN',
  '__proto__',
  'constructor',
  '../../etc/passwd',
  '=1+1',
  '\u0000',
  '\uD800',
  '🏃',
  'ß'.repeat(50),
  ' ',
  '\r\n',
  '"',
  "'",
  '<b>',
  '#{x}',
  '%zz',
  '1,5',
  '1.000.000,5',
  '2026-13-45',
  'x'.repeat(10_000),
  '9'.repeat(400),
];
const ODD_NUMBERS = [0, -0, -1, 1, 1e-300, 1e300, -1e300, 2 ** 31, 2 ** 53, -(2 ** 53), 0.1, 65_535, 1.5];
const TOKENS = [
  ',',
  ';',
  '\t',
  '\n',
  '\r',
  '"',
  '0',
  '9',
  '-',
  '.',
  'e',
  'g',
  ' ',
  '\u00b5',
  '/',
  ':',
  'left',
  'NaN',
  '1e5',
];

/** Flips, cuts, repeats, moves or puts in some bytes; at times packs the beginning of a gzip file in front. */
export function mutateBytes(bytes: Uint8Array, random: Random): Uint8Array {
  let out = Buffer.from(bytes);
  for (let n = 1 + below(random, 4); n > 0; n--) {
    const at = below(random, out.length + 1);
    const length = below(random, Math.min(2000, out.length - at + 1));
    const kind = below(random, 8);
    if (kind === 0 && out.length > 0) out[below(random, out.length)] ^= 1 << below(random, 8);
    else if (kind === 1) out = out.subarray(0, at);
    else if (kind === 2) out = Buffer.concat([out.subarray(0, at), out.subarray(at + length)]);
    else if (kind === 3) out = Buffer.concat([out.subarray(0, at + length), out.subarray(at)]);
    else if (kind === 4)
      out = Buffer.concat([out.subarray(0, at), Buffer.from(pick(random, ODD_TEXTS)), out.subarray(at)]);
    else if (kind === 5) {
      const token = Buffer.from(pick(random, TOKENS).repeat(1 + below(random, 300)));
      out = Buffer.concat([out.subarray(0, at), token, out.subarray(at)]);
    } else if (kind === 6) {
      const noise = Buffer.from(Array.from({ length: below(random, 40) }, () => below(random, 256)));
      out = Buffer.concat([out.subarray(0, at), noise, out.subarray(at)]);
    } else out = Buffer.from(out.toString('latin1').replaceAll(pick(random, TOKENS), pick(random, TOKENS)), 'latin1');
    if (out.length > 2_000_000) out = out.subarray(0, 2_000_000);
  }
  return out;
}

/** A value in which some parts were taken away, exchanged, doubled or made odd. */
export function mutateJson(value: unknown, random: Random): unknown {
  const copy = structuredClone(value);
  for (let n = 1 + below(random, 3); n > 0; n--) damageOne(copy, random);
  return random() < 0.03 ? oddValue(random) : copy;
}

function damageOne(value: unknown, random: Random): void {
  if (value === null || typeof value !== 'object') return;
  const keys = Object.keys(value);
  if (keys.length === 0) return;
  const key = pick(random, keys);
  const holder = value as Record<string, unknown>;
  if (typeof holder[key] === 'object' && holder[key] !== null && random() < 0.75) {
    damageOne(holder[key], random);
    return;
  }
  const kind = below(random, 5);
  if (kind === 0 && !Array.isArray(value)) delete holder[key];
  else if (kind === 1) holder[key] = holder[pick(random, keys)];
  else if (kind === 2 && Array.isArray(value)) for (let i = 0; i < 50; i++) value.push(structuredClone(value[0]));
  else if (kind === 3 && !Array.isArray(value)) holder[pick(random, ODD_TEXTS)] = oddValue(random);
  else holder[key] = oddValue(random);
}

export function oddValue(random: Random): unknown {
  const kind = below(random, 7);
  if (kind === 0) return null;
  if (kind === 1) return random() < 0.5;
  if (kind === 2) return pick(random, ODD_NUMBERS);
  if (kind === 3) return [];
  if (kind === 4) return {};
  if (kind === 5) return Array.from({ length: below(random, 30) }, () => pick(random, ODD_NUMBERS));
  return pick(random, ODD_TEXTS);
}

// biome-ignore lint/suspicious/noExplicitAny: a JSON schema of any form
type Schema = any;

/** A value that fits a schema, mostly, so that it gets behind the check of its form. */
export function fromSchema(schema: Schema, random: Random, depth = 0): unknown {
  if (depth > 8 || random() < 0.01) return oddValue(random);
  if (schema.enum) return pick(random, schema.enum);
  if (schema.const !== undefined) return schema.const;
  const either = schema.anyOf ?? schema.oneOf;
  if (either) return fromSchema(pick(random, either), random, depth);
  if (schema.allOf)
    return Object.assign({}, ...schema.allOf.map((part: Schema) => fromSchema(part, random, depth + 1)));
  if (schema.type === 'string') return textFor(schema, random);
  if (schema.type === 'integer' || schema.type === 'number') return numberFor(schema, random);
  if (schema.type === 'boolean') return random() < 0.5;
  if (schema.type === 'null') return null;
  if (schema.type === 'array') {
    if (Array.isArray(schema.items)) return schema.items.map((item: Schema) => fromSchema(item, random, depth + 1));
    const count = Math.max(schema.minItems ?? 0, random() < 0.05 ? 200 : below(random, 4));
    return Array.from({ length: count }, () => fromSchema(schema.items ?? {}, random, depth + 1));
  }
  if (schema.type === 'object') {
    const required = new Set<string>(schema.required ?? []);
    const own = Object.entries(schema.properties ?? {})
      .filter(([key]) => required.has(key) || random() < 0.5)
      .map(([key, inner]) => [key, fromSchema(inner, random, depth + 1)]);
    const extra = Object.values(schema.patternProperties ?? {}).map((inner) => [
      pick(random, ODD_TEXTS),
      fromSchema(inner, random, depth + 1),
    ]);
    return Object.fromEntries([...own, ...extra]);
  }
  return oddValue(random);
}

function numberFor(schema: Schema, random: Random): number {
  const low = schema.minimum ?? schema.exclusiveMinimum ?? -1000;
  const high = schema.maximum ?? schema.exclusiveMaximum ?? 1000;
  const kind = below(random, 8);
  const value =
    kind === 0
      ? low
      : kind === 1
        ? high
        : kind === 2
          ? pick(random, ODD_NUMBERS)
          : low + random() * Math.min(high - low, 10);
  return schema.type === 'integer' ? Math.round(value) : value;
}

function textFor(schema: Schema, random: Random): string {
  if (schema.pattern?.includes('\\d{4}-\\d{2}-\\d{2}'))
    return pick(random, ['2026-03-02', '2024-02-29', '2026-02-31', '0000-00-00', '9999-99-99']);
  if (schema.pattern?.includes('\\d{4}-')) return pick(random, ['2026-03', '0000-01', '9999-12']);
  if (random() < 0.1) return 'x'.repeat(Math.min(schema.maxLength ?? 100, 20_000));
  if (random() < 0.2)
    return pick(random, ['40yd', '10m=2.1s,20m=3.4s', '5.2s', 'arms', 'contact_time_ms', '500hz', '3mps', 'bramble']);
  return pick(random, ODD_TEXTS).slice(0, schema.maxLength ?? 100);
}
