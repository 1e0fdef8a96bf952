import { runningPitch } from './contact.ts';
import type { Curve } from './curves.ts';
import { quintic, smoothStep } from './curves.ts';
import { ankleFromBall, length, reach } from './leg.ts';
import { pushOff } from './push-off.ts';
import { gravity, type HipState, lateralOf, type Scene } from './scene.ts';
import type { Run } from './schedule.ts';
import { landingOf, pitchesOf } from './styles.ts';

/**
 * Hip motion and foot places of a run. Horizontal speed changes only on the ground (with a dip where the leg brakes);
 * vertical motion is ballistic in flight. Each foot is placed so that the leg is nearly straight at toe-off.
 * Returns the hip's state at the last toe-off, the start of a 0.04 s flight.
 */
export function placeRun(scene: Scene, run: Run, setS: number, setHeight: number): HipState {
  const { athlete: a, leg, sole, tracks, contacts, r } = scene;
  const L = length(leg);
  const up = leg.ankleUp;
  const { effort } = run.plan;
  const steps = run.steps;
  const top = (effort > 0.85 ? 0.925 : 0.93) * L + up;
  const low = (run.plan.start === 'standing' ? 0.87 : 0.82) * L + up;
  const swing = 0.042 * Math.min(1, effort);
  // ankle relative to the ball's place when the foot has rolled to a pitch
  const rolledAnkle = (pitch: number) => {
    const c = Math.cos(pitch);
    const n = Math.sin(pitch);
    const ankle = ankleFromBall(leg, pitch);
    return {
      dx: sole.arc(pitch) - (c * sole.x(pitch) + n * sole.z(pitch)) + ankle.dx,
      dz: n * sole.x(pitch) - c * sole.z(pitch) + ankle.dz,
    };
  };

  // horizontal
  const t0 = run.firstMovement;
  let s = setS;
  const v = steps[0].speedIn;
  const push = 0.54 * v * (run.frontToeOff - t0);
  tracks.s.add(t0, quintic(t0, { p: s, v: 0, a: 0 }, run.frontToeOff, { p: s + push, v, a: 0 }));
  s += push;
  const turns: [number, Curve][] = [];
  const placed: { height: number; landingAt: number }[] = [];
  let from = run.frontToeOff;
  steps.forEach((step, i) => {
    const s0 = s;
    const t1 = from;
    const v1 = step.speedIn;
    tracks.s.add(t1, (t) => s0 + v1 * (t - t1));
    s += v1 * (step.touchdown - t1);
    const tc = step.toeOff - step.touchdown;
    const brake =
      step.phase === 'maximum' ? r.between(0.008, 0.018) : step.phase === 'slowing' ? 0.01 : 0.012 * Math.min(1, i / 8);
    const travel = tc * ((v1 + step.speedOut) / 2) * (1 - brake);
    tracks.s.add(
      step.touchdown,
      quintic(step.touchdown, { p: s, v: v1, a: 0 }, step.toeOff, { p: s + travel, v: step.speedOut, a: 0 }),
    );
    const p = pitchesOf(a, step.phase, step.index, effort, step.speed, r);
    const extension = effort > 0.85 && step.phase !== 'slowing' ? r.normal(0.964, 0.003) : r.normal(0.966, 0.004);
    let height = step.phase === 'slowing' ? top : low + (top - low) * (1 - Math.exp(-i / 5)) + r.normal(0, 0.004);
    const on = rolledAnkle(p.landing);
    const off = rolledAnkle(p.off);
    let ahead = 0;
    for (let k = 0; k < 80; k++, height -= 0.003) {
      const behind = Math.sqrt(Math.max(0.01, (extension * L) ** 2 - (height - off.dz) ** 2));
      ahead = travel - swing - off.dx - behind;
      if (Math.hypot(ahead + on.dx - swing, height - on.dz) / L < 0.973) break;
    }
    step.s = s + ahead;
    const behind = Math.sqrt(Math.max(0.01, (extension * L) ** 2 - (height - off.dz) ** 2));
    const hard = effort > 0.85 && step.phase === 'acceleration' ? Math.exp(-(step.index - 1) / 3) : 0;
    const shank = reach(leg, -behind, off.dz - height).shank;
    const push = pushOff(a, step, { foot: p.off, shank, rise: p.off - p.flat }, hard, r);
    const sign = step.side === 'left' ? 1 : -1;
    contacts.push({
      side: step.side,
      phase: step.phase,
      repetition: run.repetition,
      index: step.index,
      touchdown: step.touchdown,
      toeOff: step.toeOff,
      s: step.s,
      lateral: lateralOf(step.side, (0.045 + 0.1 * Math.exp(-i / 4)) * (1 + r.normal(0, 0.15))),
      toeOut: a.toeOut + (r.normal(0, 1.5) * Math.PI) / 180,
      speed: step.speed,
      pitch: runningPitch(step.touchdown, step.toeOff, p.landing, p.flat, p.u1, push),
      push,
      depth: r.between(0.0015, 0.004),
      arrests: [],
      landing: landingOf(a, step.phase, step.index, effort, step.speed, r),
    });
    turns.push([step.touchdown, (t) => sign * swing * (1 - 2 * smoothStep((t - step.touchdown) / tc))]);
    placed.push({ height, landingAt: s });
    s += travel;
    from = step.toeOff;
  });

  const firstSign = (steps[0].side === 'left' ? 1 : -1) * swing;
  tracks.pelvis.add(t0, quintic(t0, { p: 0, v: 0, a: 0 }, run.frontToeOff, { p: firstSign, v: 0, a: 0 }));
  tracks.pelvis.add(run.frontToeOff, () => firstSign);
  for (const [at, turn] of turns) tracks.pelvis.add(at, turn);

  // vertical: ballistic between contacts, quintic on the ground
  let z = setHeight;
  let vz = 0;
  let az = 0;
  let since = t0;
  for (let i = 0; i <= steps.length; i++) {
    const takeOff = i === 0 ? run.frontToeOff : steps[i - 1].toeOff;
    const height = placed[Math.max(0, i - 1)].height;
    const next = steps[i];
    const landing = next ? placed[i].height : height;
    const flight = next ? next.touchdown - takeOff : 0.04;
    const rise = (landing - height) / flight + (gravity * flight) / 2;
    tracks.z.add(since, quintic(since, { p: z, v: vz, a: az }, takeOff, { p: height, v: rise, a: -gravity }));
    tracks.z.add(takeOff, ((t) => height + rise * (t - takeOff) - (gravity * (t - takeOff) ** 2) / 2) as Curve);
    z = landing;
    vz = rise - gravity * flight;
    az = -gravity;
    since = next ? next.touchdown : takeOff;
    if (!next) return { t: takeOff, s, v: steps.at(-1)!.speedOut, z: height, vz: rise };
  }
  throw new Error('unreachable');
}
