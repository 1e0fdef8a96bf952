/**
 * Solves A x = b for a symmetric positive definite matrix by Cholesky's factors.
 * @param matrix n x n, row by row; its lower half is overwritten
 * @param b n numbers
 * @returns x, n numbers
 */
export function solvePositive(matrix: Float64Array, b: readonly number[]): Float64Array {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j];
      for (let k = 0; k < j; k++) sum -= matrix[i * n + k] * matrix[j * n + k];
      matrix[i * n + j] = i === j ? Math.sqrt(sum) : sum / matrix[j * n + j];
    }
  }
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] -= matrix[i * n + k] * x[k];
    x[i] /= matrix[i * n + i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] -= matrix[k * n + i] * x[k];
    x[i] /= matrix[i * n + i];
  }
  return x;
}
