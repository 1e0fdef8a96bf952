/** The part of fili that this project uses: design of second-order sections by the bilinear transform. */
declare module 'fili' {
  export interface FiliDesign {
    /** Number of second-order sections, not the filter's order; silently limited to 12. */
    order: number;
    characteristic: 'butterworth';
    Fs: number;
    Fc: number;
    preGain?: boolean;
  }

  /** H(z) = k (b0 + b1/z + b2/z2) / (1 + a0/z + a1/z2), with a[0] and a[1] the first and second delay. */
  export interface FiliSection {
    k: number;
    a: [number, number];
    b: [number, number, number];
    a0: number;
    z: [number, number];
  }

  export class CalcCascades {
    lowpass(design: FiliDesign): FiliSection[];
    highpass(design: FiliDesign): FiliSection[];
  }

  const fili: { CalcCascades: typeof CalcCascades };
  export default fili;
}
