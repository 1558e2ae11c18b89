import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bilinear, eigenSymmetric } from '../../src/numeric/symmetric.ts';
import { largestDifference, python, pythonMissing } from './python.ts';

/** B B' + a little of the unit matrix: what a covariance looks like. */
const covariances = fc.integer({ min: 1, max: 6 }).chain((n) =>
  fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: n * n, maxLength: n * n }).map((b) => {
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j < n; j += 1) {
        let sum = i === j ? 1e-3 : 0;
        for (let k = 0; k < n; k += 1) sum += b[i * n + k]! * b[j * n + k]!;
        matrix[i * n + j] = sum;
      }
    }
    return { n, matrix };
  }),
);

describe('eigenvalues of a covariance', () => {
  test('put together again with their vectors, they are the matrix', () => {
    fc.assert(
      fc.property(covariances, ({ n, matrix }) => {
        const { values, vectors } = eigenSymmetric(matrix, n);
        const size = Math.max(...matrix.map(Math.abs));
        for (let i = 0; i < n; i += 1) {
          for (let j = 0; j < n; j += 1) {
            const sum = values.reduce((all, value, k) => all + value * vectors[k]![i]! * vectors[k]![j]!, 0);
            expect(Math.abs(sum - matrix[i * n + j]!)).toBeLessThan(1e-11 * size);
          }
        }
      }),
    );
  });

  test('descend, and the vectors are of length 1 and at right angles', () => {
    fc.assert(
      fc.property(covariances, ({ n, matrix }) => {
        const { values, vectors } = eigenSymmetric(matrix, n);
        expect(values).toEqual([...values].sort((a, b) => b - a));
        const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
        vectors.forEach((one, i) => {
          vectors.forEach((other, j) => {
            expect(Math.abs(dot(one, other) - (i === j ? 1 : 0))).toBeLessThan(1e-12);
          });
        });
      }),
    );
  });

  test('of the unit matrix and of nothing but zeros are what they must be', () => {
    expect(eigenSymmetric(Float64Array.of(1, 0, 0, 1), 2).values).toEqual([1, 1]);
    expect(eigenSymmetric(new Float64Array(9), 3).values).toEqual([0, 0, 0]);
  });

  test.skipIf(pythonMissing)('agree with numpy to 1e-9 relative', () => {
    const samples = fc.sample(covariances, { numRuns: 30, seed: 7 });
    const reference = python<number[][]>(
      `import numpy
answer = [sorted(numpy.linalg.eigvalsh(numpy.reshape(one["matrix"], (one["n"], one["n"]))).tolist(), reverse=True) for one in given]`,
      samples.map(({ n, matrix }) => ({ n, matrix: [...matrix] })),
    );
    samples.forEach(({ n, matrix }, i) => {
      const size = reference[i]![0]!;
      const shifted = (values: readonly number[]) => values.map((value) => value + size);
      expect(
        largestDifference(shifted(eigenSymmetric(matrix, n).values), shifted(reference[i]!)),
      ).toBeLessThan(1e-9);
    });
  });
});

test("f' M g is the double sum", () => {
  const matrix = Float64Array.of(2, 1, 1, 3);
  expect(bilinear([1, 2], matrix, [3, 4], 2)).toBe(2 * 3 + 4 + 2 * (3 + 3 * 4));
});
