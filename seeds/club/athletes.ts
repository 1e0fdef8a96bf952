/** The invented club: nobody here exists. Each athlete has a story that the figures should show after four weeks. */
import type { Runner } from '../motion/runner.ts';
import { makeRandom } from '../random.ts';

export const CLUB_NAME = 'Lanternfield speed group';

export interface ClubAthlete {
  name: string;
  sex: 'female' | 'male';
  birth_date: string;
  notes: string;
  /** What the athlete works on (`focuses.ts`), and since how many days before today. */
  focus: string;
  focus_since_days: number;
  runner: Partial<Runner> & Pick<Runner, 'stature_m' | 'body_mass_kg' | 'full_speed_mps' | 'time_constant_s'>;
  /** Does the work show? What it changes is drawn, not written here (`draw-form.ts`). */
  course: 'improves' | 'stays' | 'worsens';
  /** Lengthening of contact from repetition to repetition within a session, as a share. */
  tiring: number;
  /** Sessions missed, counted back from today's (0). */
  absent: number[];
}

export const CLUB: readonly ClubAthlete[] = [
  {
    name: 'Maren K.',
    sex: 'female',
    birth_date: '2008-03-14',
    notes: 'Long contacts in the first weeks; works on a short contact.',
    focus: 'contact_time',
    focus_since_days: 16,
    runner: {
      stature_m: 1.71,
      body_mass_kg: 59,
      full_speed_mps: 7.9,
      time_constant_s: 1.22,
      strike: 0.2,
      contact_factor: 1.07,
      side_difference: 0.005,
    },
    course: 'improves',
    tiring: 0.004,
    absent: [],
  },
  {
    name: 'Jonah P.',
    sex: 'male',
    birth_date: '2007-11-02',
    notes: 'Starts sessions well and fades: watch the last repetitions.',
    focus: 'rhythm',
    focus_since_days: 15,
    runner: {
      stature_m: 1.83,
      body_mass_kg: 77,
      full_speed_mps: 8.8,
      time_constant_s: 1.28,
      strike: 0.5,
      side_difference: -0.006,
    },
    course: 'stays',
    tiring: 0.022,
    absent: [4],
  },
  {
    name: 'Aiko S.',
    sex: 'female',
    birth_date: '2009-06-21',
    notes: 'Left contact longer than right since autumn. No pain reported; the physiotherapist knows.',
    focus: 'evenness',
    focus_since_days: 18,
    runner: {
      stature_m: 1.63,
      body_mass_kg: 52,
      full_speed_mps: 7.7,
      time_constant_s: 1.18,
      strike: 0.7,
      side_difference: 0.075,
    },
    course: 'improves',
    tiring: 0.006,
    absent: [],
  },
  {
    name: 'Dele O.',
    sex: 'male',
    birth_date: '2005-01-30',
    notes: 'The fastest of the group; steady.',
    focus: 'acceleration_end',
    focus_since_days: 16,
    runner: {
      stature_m: 1.79,
      body_mass_kg: 78,
      full_speed_mps: 9.7,
      time_constant_s: 1.24,
      strike: 0.9,
      contact_factor: 0.96,
      side_difference: 0.008,
    },
    course: 'stays',
    tiring: 0.005,
    absent: [2],
  },
  {
    name: 'Lucia R.',
    sex: 'female',
    birth_date: '2010-09-08',
    notes: 'Growing; new to the group and improving quickly.',
    focus: 'contact_time',
    focus_since_days: 20,
    runner: {
      stature_m: 1.66,
      body_mass_kg: 54,
      full_speed_mps: 7.3,
      time_constant_s: 1.16,
      strike: -0.2,
      contact_factor: 1.04,
      side_difference: 0.003,
    },
    course: 'improves',
    tiring: 0.008,
    absent: [],
  },
  {
    name: 'Finn T.',
    sex: 'male',
    birth_date: '2008-12-17',
    notes: 'A cold in the last week; came back too early?',
    focus: 'heel',
    focus_since_days: 13,
    runner: {
      stature_m: 1.77,
      body_mass_kg: 68,
      full_speed_mps: 8.4,
      time_constant_s: 1.25,
      strike: 0.1,
      side_difference: -0.01,
    },
    course: 'worsens',
    tiring: 0.012,
    absent: [1],
  },
  {
    name: 'Priya M.',
    sex: 'female',
    birth_date: '2007-04-25',
    notes: 'Lands heel first and ahead of the body at part speed.',
    focus: 'landing',
    focus_since_days: 16,
    runner: {
      stature_m: 1.69,
      body_mass_kg: 61,
      full_speed_mps: 7.8,
      time_constant_s: 1.3,
      strike: -0.9,
      contact_factor: 1.05,
      side_difference: 0.01,
    },
    course: 'stays',
    tiring: 0.006,
    absent: [5],
  },
  {
    name: 'Noor H.',
    sex: 'male',
    birth_date: '2006-08-03',
    notes: 'Right foot points out; steps vary a lot.',
    focus: 'tracks',
    focus_since_days: 18,
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
    course: 'stays',
    tiring: 0.008,
    absent: [3, 6],
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
const FOCUS_KEYS = ['contact_time', 'evenness', 'rhythm', 'acceleration_end', 'landing', 'heel', 'tracks'];

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
      focus_since_days: random.integer(10, 20),
      runner: {
        stature_m: random.within(female ? 1.67 : 1.78, 0.05),
        body_mass_kg: random.within(female ? 57 : 71, 5),
        full_speed_mps: random.within(female ? 7.7 : 8.8, 0.4),
        time_constant_s: random.within(1.23, 0.06),
      },
      course: random.pick(['improves', 'stays', 'stays', 'worsens'] as const),
      tiring: random.uniform(0, 0.015),
      absent: [random.integer(1, 7)],
    });
  }
  return club;
}
