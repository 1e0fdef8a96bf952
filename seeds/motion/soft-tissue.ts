/**
 * What the jolt of the ground leaves in the leg: foot and shank ring on like damped springs, and heel pad, ankle and knee
 * soften the blow of landing on its way up to the shank.
 */
import type { Random } from '../random.ts';
import type { ContactRun } from './foot-contact.ts';
import type { Runner } from './runner.ts';

/** The blow of landing is over after this long. */
const LANDING_S = 0.018;
/** The shank's turning answers a jolt that the joints have rounded off by this time constant. */
const ROUNDING_S = 0.006;

interface Spring {
  rate: number;
  damping: number;
  value: number;
  speed: number;
}

function advance(spring: Spring, push: number, dt_s: number): number {
  spring.speed +=
    dt_s * (push - 2 * spring.damping * spring.rate * spring.speed - spring.rate * spring.rate * spring.value);
  spring.value += dt_s * spring.speed;
  return spring.value;
}

export interface TissueState {
  /** Added turning of shank and foot, radians. */
  shank: number;
  roll: number;
  /** Shank's lower end against the ankle, metres. */
  give_x: number;
  give_z: number;
}

export class SoftTissue {
  readonly #jolt: Float64Array;
  readonly #blowUp: Float64Array;
  readonly #blowForward: Float64Array;
  readonly #dt: number;
  readonly #shank: Spring;
  readonly #roll: Spring;
  readonly #giveX: Spring;
  readonly #giveZ: Spring;
  readonly #shankGain: number;
  readonly #rollGain: number;

  constructor(runner: Runner, side: 'left' | 'right', samples: number, dt_s: number, random: Random) {
    const spring = (frequency_hz: number, damping: number): Spring => ({
      rate: 2 * Math.PI * frequency_hz,
      damping,
      value: 0,
      speed: 0,
    });
    this.#dt = dt_s;
    this.#jolt = new Float64Array(samples);
    this.#blowUp = new Float64Array(samples);
    this.#blowForward = new Float64Array(samples);
    this.#shank = spring(random.uniform(16, 24), 0.2);
    this.#roll = spring(random.uniform(12, 20), 0.25);
    this.#shankGain = random.uniform(0, 0.45);
    this.#rollGain = random.uniform(0.05, 0.2) * runner.looseness * (side === 'left' ? 1 : -1);
    const give_hz = random.uniform(22, 38);
    const giveDamping = random.uniform(0.4, 0.7);
    this.#giveX = spring(give_hz, giveDamping);
    this.#giveZ = spring(give_hz, giveDamping);
  }

  /** @param begin index of the contact's first state */
  addContact(run: ContactRun, begin: number, effectiveMass_kg: number): void {
    run.jolt_up_n.forEach((up, j) => {
      const i = begin + j;
      if (i < 0 || i >= this.#jolt.length) return;
      // What the joints take up is the blow of landing, not the load that follows.
      const landing = Math.exp(-(((j * this.#dt) / LANDING_S) ** 2)) / effectiveMass_kg;
      this.#jolt[i] = up;
      this.#blowUp[i] = up * landing;
      this.#blowForward[i] = run.jolt_forward_n[j] * landing;
    });
  }

  /** States in time order, one an internal sample. */
  *states(): Generator<TissueState> {
    let rounded = 0;
    for (let i = 0; i < this.#jolt.length; i++) {
      rounded += ((this.#jolt[i] - rounded) * this.#dt) / ROUNDING_S;
      yield {
        shank: advance(this.#shank, this.#shankGain * rounded, this.#dt),
        roll: advance(this.#roll, this.#rollGain * this.#jolt[i], this.#dt),
        give_x: advance(this.#giveX, -this.#blowForward[i], this.#dt),
        give_z: advance(this.#giveZ, -this.#blowUp[i], this.#dt),
      };
    }
  }
}
