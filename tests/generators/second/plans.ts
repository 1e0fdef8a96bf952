import type { Level } from './athlete.ts';
import type { Mount } from './mounting.ts';
import type { Plan } from './recording.ts';
import type { RunPlan, Start } from './schedule.ts';
import type { Chip } from './sensor.ts';

const CHIPS = {
  wide: { rate: 1000, accRange: 200, gyrRange: 4000, cutoff: 250 },
  common: { rate: 1000, accRange: 16, gyrRange: 2000, cutoff: 200 },
  slow: { rate: 400, accRange: 16, gyrRange: 2000, cutoff: 140 },
  half: { rate: 500, accRange: 32, gyrRange: 4000, cutoff: 180 },
  eight: { rate: 800, accRange: 32, gyrRange: 2000, cutoff: 280 },
  fast: { rate: 1600, accRange: 32, gyrRange: 2000, cutoff: 400 },
  poor: { rate: 400, accRange: 8, gyrRange: 1000, cutoff: 110, bits: 14 },
  markers: { rate: 300, accRange: 16, gyrRange: 2000, cutoff: 140, jitter: 0, accBias: 0.005, gyrBias: 0.1 },
} satisfies Record<string, Partial<Chip>>;

/** Invented athletes, how they start and over what distance, and the sensors they wear in maximal sprints. */
const SPRINTERS: [
  name: string,
  level: Level,
  start: Start,
  distance: number,
  foot: keyof typeof CHIPS,
  shank: keyof typeof CHIPS,
][] = [
  ['ara', 'elite', 'block', 60, 'wide', 'half'],
  ['bo', 'elite', 'block', 40, 'fast', 'eight'],
  ['cleo', 'club', 'three_point', 60, 'common', 'slow'],
  ['dag', 'club', 'three_point', 30, 'half', 'common'],
  ['eno', 'club', 'standing', 40, 'eight', 'slow'],
  ['fia', 'club', 'block', 60, 'slow', 'half'],
  ['gus', 'youth', 'standing', 30, 'common', 'slow'],
  ['hope', 'youth', 'three_point', 40, 'slow', 'wide'],
  ['ivo', 'youth', 'standing', 20, 'half', 'fast'],
  ['jun', 'elite', 'three_point', 60, 'poor', 'common'],
];
const MOUNTS: Mount[] = ['foot', 'shank'];
const sprint = (start: Start, distance: number, slowing: number): RunPlan => ({ start, effort: 1, distance, slowing });
const partSpeed = (effort: number, distance: number, slowing = 1.4): RunPlan => ({
  start: 'standing',
  effort,
  distance,
  slowing,
});

/** Maximal sprints: ten athletes, foot and shank. `smooth`: the same as from camera markers at 300 Hz. */
export function sprintPlans(smooth = false): Plan[] {
  return SPRINTERS.flatMap(([athlete, level, start, distance, foot, shank], i) =>
    MOUNTS.map((mount) => ({
      name: `sprint-${athlete}-${mount}`,
      athlete,
      level,
      mount,
      smooth,
      chip: CHIPS[smooth ? 'markers' : mount === 'foot' ? foot : shank],
      runs: [sprint(start, distance, 1.6 + 0.1 * i)],
    })),
  );
}

/** Build-ups at 50 to 90 % of top speed from a standing start. */
export function partSpeedPlans(): Plan[] {
  const kinds: [number, string, Level, keyof typeof CHIPS, keyof typeof CHIPS][] = [
    [0.5, 'bo', 'elite', 'common', 'eight'],
    [0.6, 'dag', 'club', 'half', 'slow'],
    [0.7, 'fia', 'club', 'eight', 'common'],
    [0.8, 'hope', 'youth', 'slow', 'slow'],
    [0.9, 'jun', 'elite', 'common', 'half'],
  ];
  return kinds.flatMap(([effort, athlete, level, foot, shank]) =>
    MOUNTS.map((mount) => ({
      name: `part-${effort * 100}-${athlete}-${mount}`,
      athlete,
      level,
      mount,
      chip: CHIPS[mount === 'foot' ? foot : shank],
      runs: [partSpeed(effort, 40)],
    })),
  );
}

/** Two runs in one recording with a walk back around two half circles, and steady running. */
export function otherPlans(): Plan[] {
  const twice: Pick<Plan, 'back'> = { back: 20 };
  return [
    {
      name: 'twice-cleo-foot',
      athlete: 'cleo',
      level: 'club',
      mount: 'foot',
      chip: CHIPS.common,
      runs: [sprint('three_point', 30, 2), sprint('three_point', 30, 2)],
      ...twice,
    },
    {
      name: 'twice-hope-shank',
      athlete: 'hope',
      level: 'youth',
      mount: 'shank',
      chip: CHIPS.half,
      runs: [partSpeed(0.75, 30), sprint('standing', 30, 2)],
      ...twice,
    },
    {
      name: 'steady-dag-foot',
      athlete: 'dag',
      level: 'club',
      mount: 'foot',
      chip: CHIPS.slow,
      runs: [partSpeed(0.42, 70, 0.8)],
    },
    {
      name: 'steady-gus-shank',
      athlete: 'gus',
      level: 'youth',
      mount: 'shank',
      chip: CHIPS.common,
      runs: [partSpeed(0.55, 80, 0.8)],
    },
  ];
}
