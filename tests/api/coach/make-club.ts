import type { Contact, QuantitySummary, RepetitionResult } from '../../../shared/analysis.ts';
import { createAthlete } from '../../../api/store/athletes.ts';
import { insertAnalysis } from '../../../api/store/analyses.ts';
import { createRepetition } from '../../../api/store/repetitions.ts';
import { createSession } from '../../../api/store/sessions.ts';
import type { Store } from '../../../api/store/store.ts';
import type { NewRepetition } from '../../../shared/schemas/repetition.ts';

/** What the made-up repetition should show; everything else follows from it. */
export interface MadeRepetition {
  contact_time_ms: number;
  /** Added to the left foot's contacts and taken from the right's. */
  side_ms?: number;
  speed_max_mps?: number;
  steps?: number;
}

const EMPTY: Contact = Object.freeze({
  repetition: 1,
  step: 1,
  side: 'left',
  touchdown_s: 0,
  toe_off_s: null,
  contact_time_ms: null,
  flight_time_ms: null,
  swing_time_ms: null,
  step_time_ms: null,
  step_rate_hz: null,
  step_length_m: null,
  speed_mps: null,
  distance_m: null,
  phase: null,
  confidence: 1,
  assumes_symmetry: false,
  spatial_source: 'timing',
  reasons: {},
}) as unknown as Contact;

/** A repetition's result as the analysis would give it: acceleration over 8 steps, then maximum speed. */
export function madeResult({
  contact_time_ms,
  side_ms = 0,
  speed_max_mps = 8,
  steps = 20,
}: MadeRepetition): RepetitionResult {
  const contacts: Contact[] = [];
  let [time, distance] = [1, 0];
  for (let i = 0; i < steps; i++) {
    const left = i % 2 === 0;
    const fresh = Math.max(0, 8 - i);
    const speed = speed_max_mps * (1 - Math.exp(-(i + 1) / 2.5));
    const contact = contact_time_ms + fresh * 8 + (left ? side_ms / 2 : -side_ms / 2) + ((i * 7) % 5) - 2;
    const step_time = 240;
    contacts.push({
      ...EMPTY,
      step: i + 1,
      side: left ? 'left' : 'right',
      touchdown_s: time,
      toe_off_s: time + contact / 1000,
      contact_time_ms: contact,
      contact_time_ms_u: 3,
      flight_time_ms: step_time - contact,
      swing_time_ms: 2 * step_time - contact,
      step_time_ms: step_time,
      step_rate_hz: 1000 / step_time,
      step_length_m: (speed * step_time) / 1000,
      speed_mps: speed,
      distance_m: distance,
      distance_m_u: 0.2,
      duty_factor: contact / (2 * step_time),
      phase: i < 8 ? 'acceleration' : 'maximum speed',
    });
    time += step_time / 1000;
    distance += (speed * step_time) / 1000;
  }
  const summarise = (chosen: Contact[]) => {
    const fields = [
      'contact_time_ms',
      'flight_time_ms',
      'swing_time_ms',
      'step_time_ms',
      'step_rate_hz',
      'step_length_m',
      'speed_mps',
      'duty_factor',
    ] as const;
    return Object.fromEntries(
      fields.map((field) => [field, spread(chosen.map((contact) => contact[field] as number))]),
    );
  };
  return {
    repetition: 1,
    travel: 'overground',
    first_movement_s: 0.9,
    first_movement_s_u: 0.01,
    course_end_s: time,
    start_s: 0.9,
    end_s: time,
    contacts,
    speed_curve: null,
    kinetics: null,
    reasons: {},
    summary: {
      contacts: steps,
      all: summarise(contacts),
      at_speed: summarise(contacts.filter((contact) => contact.phase === 'maximum speed')),
      left: summarise(contacts.filter((contact) => contact.side === 'left')),
      right: summarise(contacts.filter((contact) => contact.side === 'right')),
      speed_max_mps,
      speed_max_mps_u: 0.05,
      distance_m: 36.576,
      time_s: 5,
    },
  };
}

function spread(values: number[]): QuantitySummary {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
  return { mean, sd, mean_u: sd / Math.sqrt(values.length), n: values.length };
}

/** Adds an athlete. */
export function makeAthlete(store: Store, name: string, birth_date: string | null = null): number {
  return createAthlete(store, { name, birth_date, body_mass_kg: 60, stature_m: 1.7 }).athlete_id;
}

/** Adds a session. */
export function makeSession(store: Store, session_date: string, group_id: number | null = null): number {
  return createSession(store, { session_date, title: 'Evening', group_id }).session_id;
}

/** Adds an analysed repetition of 40 yd at full effort unless told otherwise. */
export function makeRepetition(
  store: Store,
  session_id: number,
  athlete_id: number,
  made: MadeRepetition,
  fields: Partial<NewRepetition> = {},
): number {
  const { repetition_id } = createRepetition(store, {
    session_id,
    athlete_id,
    effort_percent: 100,
    course_distance_m: 36.576,
    course_time_s: 5.2,
    start_style: 'standing',
    ...fields,
  });
  insertAnalysis(store, {
    repetition_id,
    result: madeResult(made),
    quality: [],
    faults: [],
    provenance: {
      version: '0',
      method: 'made',
      settings: {},
      settings_sha256: '',
      raw_sha256: [],
      filters: [],
    },
  });
  return repetition_id;
}
