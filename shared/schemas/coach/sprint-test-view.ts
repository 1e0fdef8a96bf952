import { type Static, Type } from 'typebox';
import { Id, LocalDate, Nullable } from '../common.ts';
import { Sourced } from './caution.ts';
import { SprintTest, TimeChange } from './sprint-test.ts';

/** Speed and force that the splits of one test tell. */
export const AccelerationView = Type.Object({
  sprint_test_id: Id,
  date: LocalDate,
  vmax_mps: Type.Number(),
  vmax_mps_u: Nullable(Type.Number()),
  tau_s: Type.Number(),
  /** Tests with the same key can be compared. */
  series_key: Type.String(),
  /** Timed distances, and what is found from them: with as many unknowns as points a curve fits anything. */
  points: Type.Integer(),
  unknowns: Type.Integer(),
  /** Misfit of the splits, s; null where there are no more points than unknowns, since it would say nothing. */
  residual_s: Nullable(Type.Number()),
  /** Distance at which 95 % of the maximum speed is reached. */
  distance_95_m: Type.Number(),
  /** Points of the curve: time, distance, speed. */
  curve: Type.Array(Type.Object({ time_s: Type.Number(), distance_m: Type.Number(), speed_mps: Type.Number() })),
  /** Per kilogram of body mass; null where the mass is unknown. */
  force_velocity: Nullable(
    Type.Object({
      force_n_per_kg: Type.Number(),
      velocity_mps: Type.Number(),
      power_w_per_kg: Type.Number(),
      ratio_of_force_max: Nullable(Type.Number()),
      body_mass_kg: Type.Number(),
    }),
  ),
  why_not: Type.String(),
});
export type AccelerationView = Static<typeof AccelerationView>;

/** Tests that can be compared: same distance, start and timing method. */
export const SprintSeries = Type.Object({
  key: Type.String(),
  title: Type.String(),
  hand: Type.Boolean(),
  tests: Type.Array(SprintTest),
  /** The test that counts of each day: the fastest. */
  best_ids: Type.Array(Id),
  /** Error bar of one time, s: what two equal runs may differ by in this method, over sqrt 2. */
  error_s: Type.Number(),
  /** The last against the one before, and against the first; null with one test. */
  since_last: Nullable(TimeChange),
  since_first: Nullable(TimeChange),
});
export type SprintSeries = Static<typeof SprintSeries>;

export const SprintTestView = Type.Object({
  athlete_id: Id,
  name: Type.String(),
  series: Type.Array(SprintSeries),
  accelerations: Type.Array(AccelerationView),
  /** No date while the coach has set no interval. */
  next_test: Type.Object({ date: Nullable(LocalDate), overdue_days: Type.Integer(), why: Type.String() }),
  cautions: Type.Array(Sourced),
});
export type SprintTestView = Static<typeof SprintTestView>;
