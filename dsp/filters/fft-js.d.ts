/** The part of fft.js that this project uses. Lengths other than powers of two throw; short input gives NaN. */
declare module 'fft.js' {
  export default class FFT {
    constructor(size: number);
    /** Complex numbers in and out, real and imaginary part in turn, 2 x size of each; `out` must not be `data`. */
    transform(out: Float64Array, data: Float64Array): void;
  }
}
