/** Two-link leg in the plane of progression. Angles in rad: thigh + knee ahead, knee + flexed, shank + leaning forward. */
export interface Leg {
  thigh: number;
  shank: number;
  ankleBack: number;
  ankleUp: number;
}

export const makeLeg = (stature: number): Leg => {
  const k = stature / 1.78; // segment lengths: Winter's 0.245 and 0.246 of stature; ankle height with the shoe's sole
  return { thigh: 0.245 * stature, shank: 0.246 * stature, ankleBack: 0.125 * k, ankleUp: 0.085 * k };
};
export const length = (leg: Leg): number => leg.thigh + leg.shank;

/** Joint angles that bring the ankle to (dx ahead of, dz above) the hip, knee in front of the line between them. */
export function reach(leg: Leg, dx: number, dz: number): { thigh: number; knee: number; shank: number } {
  const full = length(leg) * 0.9995;
  const distance = Math.min(Math.hypot(dx, dz), full);
  const knee = Math.PI - Math.acos((leg.thigh ** 2 + leg.shank ** 2 - distance ** 2) / (2 * leg.thigh * leg.shank));
  const inner = Math.acos((leg.thigh ** 2 + distance ** 2 - leg.shank ** 2) / (2 * leg.thigh * distance));
  const thigh = Math.atan2(dx, -dz) + inner;
  return { thigh, knee, shank: knee - thigh };
}

/** Ankle relative to the hip for a thigh angle and a knee flexion. */
export function ankleAt(leg: Leg, thigh: number, knee: number): { dx: number; dz: number } {
  const shank = knee - thigh;
  return {
    dx: leg.thigh * Math.sin(thigh) - leg.shank * Math.sin(shank),
    dz: -leg.thigh * Math.cos(thigh) - leg.shank * Math.cos(shank),
  };
}

/** Ankle relative to the foot's origin (ball of the foot) at a pitch, toe-down positive. */
export function ankleFromBall(leg: Leg, pitch: number): { dx: number; dz: number } {
  const c = Math.cos(pitch);
  const s = Math.sin(pitch);
  return { dx: -leg.ankleBack * c + leg.ankleUp * s, dz: leg.ankleBack * s + leg.ankleUp * c };
}
