import { FEWEST_ALIKE } from './levels.ts';

/** What a data set of the open level says about a body; null where too few would share it. */
export interface BodyBands {
  sex: string | null;
  age_band: string | null;
  body_mass_band: string | null;
  stature_band: string | null;
}

/** What is known of an athlete. */
export interface Body {
  sex: string | null;
  age_years: number | null;
  body_mass_kg: number | null;
  stature_m: number | null;
}

/** Ages at which a band begins. */
export const AGES = [14, 16, 18, 20, 25, 30, 40];
const KEYS = ['sex', 'age_band', 'body_mass_band', 'stature_band'] as const;

/**
 * Bands of every athlete, so that nobody is alone: as many of sex, age, mass and stature, in this order, as at least `FEWEST_ALIKE`
 * athletes share in full. Whoever knows every body and this rule is left with that many people to choose from (k-anonymity:
 * Sweeney 2002, doi 10.1142/S0218488502001648).
 */
export function bodyBands(bodies: Body[]): BodyBands[] {
  const full = bodies.map((body) => KEYS.map((key) => band(body, key)));
  const depth = new Array<number>(bodies.length).fill(0);
  let open = bodies.map((_body, i) => i);
  for (let keys = KEYS.length; keys > 0; keys--) {
    const classes = grouped(open, (i) => JSON.stringify(full[i].slice(0, keys)));
    for (const members of classes.values())
      if (members.length >= FEWEST_ALIKE) for (const i of members) depth[i] = keys;
    open = open.filter((i) => depth[i] === 0);
  }
  // One or two who share nothing would be known by that: the smallest class joins them.
  while (open.length > 0 && open.length < FEWEST_ALIKE) {
    const shown = (i: number) => JSON.stringify(full[i].slice(0, depth[i]));
    const classes = [
      ...grouped(
        bodies.map((_body, i) => i).filter((i) => depth[i] > 0),
        shown,
      ).values(),
    ].sort((a, b) => a.length - b.length || a[0] - b[0]);
    if (classes.length === 0) break;
    for (const i of classes[0]) depth[i] = 0;
    open = bodies.map((_body, i) => i).filter((i) => depth[i] === 0);
  }
  return full.map(
    (values, i) =>
      Object.fromEntries(KEYS.map((key, k) => [key, k < depth[i] ? values[k] : null])) as unknown as BodyBands,
  );
}

function band(body: Body, key: (typeof KEYS)[number]): string | null {
  if (key === 'sex') return body.sex;
  if (key === 'age_band') return body.age_years === null ? null : ageBand(body.age_years);
  if (key === 'body_mass_band') return body.body_mass_kg === null ? null : stepBand(body.body_mass_kg, 10, 'kg');
  return body.stature_m === null ? null : stepBand(Math.round(body.stature_m * 100), 10, 'cm');
}

function ageBand(years: number): string {
  const above = AGES.findIndex((limit) => years < limit);
  if (above === 0) return `under ${AGES[0]}`;
  return above < 0 ? `${AGES[AGES.length - 1]} or older` : `${AGES[above - 1]} to ${AGES[above] - 1}`;
}

function stepBand(value: number, step: number, unit: string): string {
  const from = Math.floor(value / step) * step;
  return `${from} to under ${from + step} ${unit}`;
}

function grouped<Key>(items: number[], keyOf: (item: number) => Key): Map<Key, number[]> {
  const groups = new Map<Key, number[]>();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return groups;
}
