/** The line the athlete follows on the ground: straights and half circles, as world position and heading by arc length. */
export interface Place {
  x: number;
  y: number;
  heading: number;
}
export class Path {
  private parts: { s: number; curvature: number; at: Place }[] = [
    { s: 0, curvature: 0, at: { x: 0, y: 0, heading: 0 } },
  ];
  /** From s on, the line has this curvature (1/m, left positive). */
  bend(s: number, curvature: number): void {
    const at = this.place(s);
    this.parts.push({ s, curvature, at });
  }
  place(s: number): Place {
    let part = this.parts[0];
    for (const p of this.parts) if (s >= p.s) part = p;
    const d = s - part.s;
    const { x, y, heading } = part.at;
    const k = part.curvature;
    if (k === 0) return { x: x + d * Math.cos(heading), y: y + d * Math.sin(heading), heading };
    const h = heading + k * d;
    return { x: x + (Math.sin(h) - Math.sin(heading)) / k, y: y - (Math.cos(h) - Math.cos(heading)) / k, heading: h };
  }
}
