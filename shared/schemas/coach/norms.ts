import { type Static, Type } from 'typebox';
import { Nullable, UtcInstant } from '../common.ts';

/** Fewest people of a band: of fewer nothing is told, not even how many. */
export const FEWEST_PEOPLE = 10;

/** Norms of a programme that were fetched to this club, and whether they are shown. */
export const ClubNorms = Type.Object({
  programme: Type.String(),
  published_utc: UtcInstant,
  version: Type.String({ description: 'Of the program that made them.' }),
  fewest_people: Type.Integer({ description: 'No band is of fewer.' }),
  fingerprint: Type.String({ description: 'Of the key that signed them, which this club trusts.' }),
  shown: Type.Boolean({ description: "Whether they stand beside an athlete's own normal; off until it is wanted." }),
});
export type ClubNorms = Static<typeof ClubNorms>;

export const NormsShown = Type.Object({ shown: Type.Boolean() }, { additionalProperties: false });

/** What is usual among people alike, at one speed and effort; every person counts once. No minor is in a band with an adult. */
export const NormBand = Type.Object({
  sex: Type.String(),
  age_from: Type.Number({ description: 'Completed years, from this on.' }),
  age_to: Nullable(Type.Number({ description: 'Below this; null: no end.' })),
  effort_from: Type.Number({ description: 'Per cent of full speed, from this on.' }),
  effort_to: Nullable(Type.Number()),
  speed_from_mps: Type.Number({ description: 'Speed of the step, from this on and below one more.' }),
  people: Type.Integer(),
  contacts: Type.Number(),
  mean: Type.Number({ description: "Of the people's own means, as what follows." }),
  sd: Type.Number(),
  p05: Type.Number(),
  p50: Type.Number(),
  p95: Type.Number(),
});
export type NormBand = Static<typeof NormBand>;

/** An athlete's own contacts at one speed and effort beside those of people alike. */
export const BesideOthers = Type.Object({
  quantity: Type.String(),
  band: NormBand,
  own_mean: Type.Number(),
  own_sd: Nullable(Type.Number()),
  own_contacts: Type.Integer(),
});
export type BesideOthers = Static<typeof BesideOthers>;

/** One athlete beside others alike; no bands while norms are not shown, nobody is alike, or the athlete returns from an injury. */
export const AthleteBesideOthers = Type.Object({ norms: Nullable(ClubNorms), bands: Type.Array(BesideOthers) });
export type AthleteBesideOthers = Static<typeof AthleteBesideOthers>;
