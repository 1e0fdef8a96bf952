/** A leg that is shaken this hard turns faster than this ('common practice': a jog passes 300 deg/s). */
const HARD_G = 8;
const SLOW_DPS = 60;

/**
 * Whether a sensor was shaken as by running and hardly turned: its angular rate is then in another unit than was taken.
 * @param acc_g greatest acceleration, g
 * @param gyr_dps greatest angular rate, deg/s; 0 of a gyroscope that was off
 */
export function hardlyTurned(acc_g: number, gyr_dps: number): boolean {
  return acc_g > HARD_G && gyr_dps > 0 && gyr_dps < SLOW_DPS;
}
