/** The invented club: nobody here exists. Each athlete has a story that the figures should show after four weeks. */
import type { Lift } from '../../shared/coach-words.ts';
import type { Runner } from '../motion/runner.ts';
import { makeRandom } from '../random.ts';

export const CLUB_NAME = 'Lanternfield speed group';

export interface ClubAthlete {
  name: string;
  sex: 'female' | 'male';
  birth_date: string;
  notes: string;
  /** Focus of the coach's catalogue, from which week before today. */
  focus: string;
  focus_since_days: number;
  runner: Partial<Runner> & Pick<Runner, 'stature_m' | 'body_mass_kg' | 'full_speed_mps' | 'time_constant_s'>;
  /** Change over four weeks, as shares: top speed, contact time. */
  speed_gain: number;
  contact_gain: number;
  /** Lengthening of contact from repetition to repetition within a session, as a share. */
  tiring: number;
  /** Sessions missed, counted back from today's (0). */
  absent: number[];
  strength: { lift: Lift; load_kg: number }[];
}

export const CLUB: readonly ClubAthlete[] = [
  {
    name: 'Maren K.',
    sex: 'female',
    birth_date: '2008-03-14',
    notes: 'Long contacts in the first weeks; works on a firm, short contact.',
    focus: 'contact_time',
    focus_since_days: 27,
    runner: {
      stature_m: 1.71,
      body_mass_kg: 59,
      full_speed_mps: 7.9,
      time_constant_s: 1.22,
      strike: 0.2,
      contact_factor: 1.07,
      side_difference: 0.005,
    },
    speed_gain: 0.02,
    contact_gain: -0.055,
    tiring: 0.004,
    absent: [],
    strength: [
      { lift: 'parallel_squat', load_kg: 70 },
      { lift: 'straight_leg_deadlift', load_kg: 28 },
    ],
  },
  {
    name: 'Jonah P.',
    sex: 'male',
    birth_date: '2007-11-02',
    notes: 'Starts sessions well and fades: watch the last repetitions.',
    focus: 'rhythm',
    focus_since_days: 41,
    runner: {
      stature_m: 1.83,
      body_mass_kg: 77,
      full_speed_mps: 8.8,
      time_constant_s: 1.28,
      strike: 0.5,
      side_difference: -0.006,
    },
    speed_gain: 0.005,
    contact_gain: 0,
    tiring: 0.022,
    absent: [4],
    strength: [
      { lift: 'parallel_squat', load_kg: 105 },
      { lift: 'straight_leg_deadlift', load_kg: 52 },
    ],
  },
  {
    name: 'Aiko S.',
    sex: 'female',
    birth_date: '2009-06-21',
    notes: 'Left contact longer than right since autumn. No pain reported; the physiotherapist knows.',
    focus: 'evenness',
    focus_since_days: 20,
    runner: {
      stature_m: 1.63,
      body_mass_kg: 52,
      full_speed_mps: 7.7,
      time_constant_s: 1.18,
      strike: 0.7,
      side_difference: 0.075,
    },
    speed_gain: 0.012,
    contact_gain: -0.01,
    tiring: 0.006,
    absent: [],
    strength: [{ lift: 'parallel_squat', load_kg: 55 }],
  },
  {
    name: 'Dele O.',
    sex: 'male',
    birth_date: '2005-01-30',
    notes: 'The fastest of the group; steady.',
    focus: 'acceleration_end',
    focus_since_days: 34,
    runner: {
      stature_m: 1.79,
      body_mass_kg: 78,
      full_speed_mps: 9.7,
      time_constant_s: 1.24,
      strike: 0.9,
      contact_factor: 0.96,
      side_difference: 0.008,
    },
    speed_gain: 0.006,
    contact_gain: -0.006,
    tiring: 0.005,
    absent: [2],
    strength: [
      { lift: 'parallel_squat', load_kg: 150 },
      { lift: 'straight_leg_deadlift', load_kg: 60 },
    ],
  },
  {
    name: 'Lucia R.',
    sex: 'female',
    birth_date: '2010-09-08',
    notes: 'Growing; new to the group and improving quickly.',
    focus: 'push_finish',
    focus_since_days: 24,
    runner: {
      stature_m: 1.66,
      body_mass_kg: 54,
      full_speed_mps: 7.3,
      time_constant_s: 1.16,
      strike: -0.2,
      contact_factor: 1.04,
      side_difference: 0.003,
    },
    speed_gain: 0.05,
    contact_gain: -0.03,
    tiring: 0.008,
    absent: [],
    strength: [],
  },
  {
    name: 'Finn T.',
    sex: 'male',
    birth_date: '2008-12-17',
    notes: 'A cold in the last week; came back too early?',
    focus: 'heel_recovery',
    focus_since_days: 31,
    runner: {
      stature_m: 1.77,
      body_mass_kg: 68,
      full_speed_mps: 8.4,
      time_constant_s: 1.25,
      strike: 0.1,
      side_difference: -0.01,
    },
    speed_gain: -0.025,
    contact_gain: 0.03,
    tiring: 0.012,
    absent: [1],
    strength: [{ lift: 'parallel_squat', load_kg: 85 }],
  },
  {
    name: 'Priya M.',
    sex: 'female',
    birth_date: '2007-04-25',
    notes: 'Lands heel first and ahead of the body at part speed.',
    focus: 'foot_landing',
    focus_since_days: 27,
    runner: {
      stature_m: 1.69,
      body_mass_kg: 61,
      full_speed_mps: 7.8,
      time_constant_s: 1.3,
      strike: -0.9,
      contact_factor: 1.05,
      side_difference: 0.01,
    },
    speed_gain: 0.015,
    contact_gain: -0.02,
    tiring: 0.006,
    absent: [5],
    strength: [
      { lift: 'parallel_squat', load_kg: 65 },
      { lift: 'straight_leg_deadlift', load_kg: 24 },
    ],
  },
  {
    name: 'Noor H.',
    sex: 'male',
    birth_date: '2006-08-03',
    notes: 'Right foot points out; steps vary a lot.',
    focus: 'foot_direction',
    focus_since_days: 27,
    runner: {
      stature_m: 1.75,
      body_mass_kg: 71,
      full_speed_mps: 8.9,
      time_constant_s: 1.2,
      strike: 0.6,
      toe_out_deg: { left: 5, right: 17 },
      step_variation: 0.04,
      side_difference: -0.004,
    },
    speed_gain: 0.01,
    contact_gain: -0.01,
    tiring: 0.008,
    absent: [3, 6],
    strength: [
      { lift: 'parallel_squat', load_kg: 110 },
      { lift: 'straight_leg_deadlift', load_kg: 44 },
    ],
  },
];

const FIRST_NAMES = [
  'Arne',
  'Bela',
  'Caro',
  'Dana',
  'Edo',
  'Fara',
  'Gus',
  'Hedda',
  'Ilja',
  'Juno',
  'Kasper',
  'Liv',
  'Milo',
  'Nell',
  'Oda',
  'Pia',
  'Quin',
  'Rasmus',
  'Sanne',
  'Tove',
  'Umar',
  'Vida',
  'Wim',
  'Yara',
  'Zeno',
];
const FOCUS_KEYS = [
  'contact_time',
  'foot_landing',
  'push_finish',
  'foot_direction',
  'heel_recovery',
  'evenness',
  'rhythm',
  'acceleration_end',
];

/** The club, filled up with more invented athletes where a larger group is wanted. */
export function clubOf(count: number): ClubAthlete[] {
  const random = makeRandom(77);
  const club = CLUB.slice(0, count);
  for (let i = CLUB.length; i < count; i++) {
    const female = random.uniform(0, 1) < 0.5;
    club.push({
      name: `${FIRST_NAMES[i % FIRST_NAMES.length]} ${'ABCDEFGHIJKLMNOPRSTVWZ'[random.integer(0, 21)]}.`,
      sex: female ? 'female' : 'male',
      birth_date: `${random.integer(2004, 2011)}-${String(random.integer(1, 12)).padStart(2, '0')}-${String(random.integer(1, 28)).padStart(2, '0')}`,
      notes: '',
      focus: random.pick(FOCUS_KEYS),
      focus_since_days: random.integer(7, 50),
      runner: {
        stature_m: random.within(female ? 1.67 : 1.78, 0.05),
        body_mass_kg: random.within(female ? 57 : 71, 5),
        full_speed_mps: random.within(female ? 7.7 : 8.8, 0.4),
        time_constant_s: random.within(1.23, 0.06),
      },
      speed_gain: random.within(0.012, 0.015),
      contact_gain: random.within(-0.01, 0.015),
      tiring: random.uniform(0, 0.015),
      absent: [random.integer(1, 7)],
      strength: [{ lift: 'parallel_squat', load_kg: Math.round(random.within(85, 20) / 2.5) * 2.5 }],
    });
  }
  return club;
}
