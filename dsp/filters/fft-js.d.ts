/** The part of fft.js that this project uses. Lengths other than powers of two throw; short input gives NaN. */
declare module 'fft.js' {
  export default class FFT {
    constructor(size: number);
    createComplexArray(): number[];
    /** Fills the first half of the spectrum. */
    realTransform(out: number[], data: ArrayLike<number>): void;
    completeSpectrum(out: number[]): void;
  }
}
