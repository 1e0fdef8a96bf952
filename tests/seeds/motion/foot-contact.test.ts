import { describe, expect, it } from 'vitest';
import { footShape, runContact, soleDepth } from '../../../seeds/motion/foot-contact.ts';

const shape = footShape(1.75);
const mechanics = {
  effective_mass_kg: 2.5,
  stiffness: 1.2e6,
  damping: 1,
  friction: 0.85,
  shear_stiffness: 9e4,
  toe_stiffness: 8000,
  hold_hz: 8,
  hold_damping: 0.7,
  yield_per_kgm2: 1,
};
const flat = () => ({ value: 0, rate: 0, acceleration: 0 });
const state = (vz: number) => ({
  x: 0,
  z: soleDepth(shape, 0),
  vx: 0,
  vz,
  ax: 0,
  az: 0,
  pitch: 0,
  pitch_rate: 0,
  pitch_acceleration: 0,
});
const plan = (load: (t: number) => number, toe_off_s: number) => ({
  touchdown_s: 0,
  toe_off_s,
  pitch: flat,
  load,
  lift_mps2: 0,
  pull_mps2: 0,
  pick_up_lead_s: 0.01,
  pick_up_end_s: 0.01,
});

describe('runContact', () => {
  it('carries a steady load with the same force, as a plate under somebody standing', () => {
    const run = runContact(
      shape,
      mechanics,
      plan(() => 350, 2),
      state(0),
      0,
      1 / 4000,
      1,
    );
    expect(run.force_n[run.force_n.length - 1]).toBeCloseTo(350, 0);
  });

  it('obeys the impulse theorem: force minus load over time is mass times change of speed', () => {
    const load = (t: number) => (t < 0.2 ? 1400 * Math.sin((Math.PI * t) / 0.2) : 0);
    const run = runContact(shape, mechanics, plan(load, 0.2), state(-1.2), 0, 1 / 4000);
    let impulse = 0;
    run.force_n.forEach((force, i) => {
      impulse += (force - load(i / 4000)) / 4000;
    });
    const change = mechanics.effective_mass_kg * (run.states[run.states.length - 1].vz + 1.2);
    expect(impulse).toBeCloseTo(change, 1);
  });

  it('loses speed in the landing, never gains it', () => {
    const run = runContact(
      shape,
      mechanics,
      plan(() => 0, 0.05),
      state(-1.5),
      0,
      1 / 4000,
    );
    const last = run.states[run.states.length - 1];
    expect(last.vz).toBeGreaterThan(0);
    expect(last.vz).toBeLessThan(1.5);
  });

  it('does not let the foot slide further than friction allows', () => {
    const slipping = { ...state(-0.5), vx: 1 };
    const run = runContact(
      shape,
      mechanics,
      plan(() => 800, 0.3),
      slipping,
      0,
      1 / 4000,
      0.25,
    );
    const last = run.states[run.states.length - 1];
    expect(Math.abs(last.vx)).toBeLessThan(0.02);
    expect(last.x).toBeLessThan(0.05);
  });
});
