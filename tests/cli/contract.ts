/** The output contract of every command as zod schemas: strict, so that a key too many or too few shows. */
import * as z from 'zod';

const nm = z.number().min(100).max(2000);
const probability = z.number().min(0).max(1);
const index = z.int().min(0);
const warning = z.strictObject({ code: z.string().regex(/^[a-z][a-z0-9-]*$/), message: z.string().min(1) });

const positive = z.number().positive();

const withU = z.strictObject({ value: z.number(), u: z.number().min(0) }).nullable();

const calibration = z.strictObject({
  model: z.string(),
  rms: z.number().nullable(),
  unit: z.enum(['arcmin', 'scale']),
  choice: z.string(),
  formula: z.string(),
  coefficients: z.array(
    z.strictObject({
      name: z.string(),
      value: z.number(),
      standardUncertainty: z.number(),
      unit: z.string(),
    }),
  ),
  hartmann: z
    .union([
      z.strictObject({
        lambda0Nm: z.number(),
        cNmDeg: z.number(),
        delta0Deg: z.number(),
        u: z.strictObject({ lambda0Nm: positive, cNmDeg: positive, delta0Deg: positive }).nullable(),
        worstNm: z.number().min(0),
      }),
      z.strictObject({
        lambda0Nm: z.number(),
        cNm: z.number(),
        s0: z.number(),
        u: z.strictObject({ lambda0Nm: positive, cNm: positive, s0: positive }).nullable(),
        worstNm: z.number().min(0),
      }),
    ])
    .nullable(),
  polynomial: z
    .strictObject({
      degree: z.number().int().min(1).max(3),
      in: z.literal('1/λ² (µm⁻²)'),
      coefficients: z.array(z.strictObject({ value: z.number(), u: positive.nullable() })).min(2),
      rms: z.number().min(0),
      unit: z.enum(['deg', 'scale']),
    })
    .nullable(),
  indices: z
    .strictObject({
      apexAngleDeg: z.number().min(5).max(120),
      apexUncertaintyDeg: positive.nullable(),
      lines: z.array(
        z.strictObject({
          index: index.nullable(),
          wavelengthNm: nm,
          deviationDeg: z.number().min(0).max(180),
          n: z.number(),
          u: z.number().min(0),
          uFromLine: z.number().min(0),
          uFromCentral: z.number().min(0),
          uFromApexAngle: z.number().min(0),
          angularDispersionArcminPerNm: withU,
          resolvingPowerPerMm: withU,
          resolvingPower: withU,
        }),
      ),
      cauchy: z.strictObject({ a: withU, bUm2: withU, cUm4: withU, worst: z.number().min(0) }).nullable(),
      nd: withU,
      principalDispersion: withU,
      abbeNumber: withU,
      extrapolated: z.boolean(),
      nearestGlasses: z
        .array(
          z.strictObject({
            name: z.string().min(1),
            nd: z.number(),
            abbeNumber: z.number(),
            distance: z.number().min(0),
          }),
        )
        .max(3),
      baseMm: positive.nullable(),
      notes: z.array(z.string().min(1)),
    })
    .nullable(),
  lines: z.array(
    z.strictObject({
      index,
      wavelengthNm: nm.nullable(),
      statedWavelengthNm: nm.nullable(),
      deviationDeg: z.number().min(0).max(180).nullable(),
      residual: z.number().nullable(),
      status: z.enum(['used', 'slip', 'reassigned', 'set-aside']),
      message: z.string().min(1).nullable(),
    }),
  ),
});

export const calibrated = z.strictObject({
  file: z.string(),
  title: z.string(),
  calibration,
  warnings: z.array(warning),
});

const difference = z.strictObject({ value: z.number(), standardUncertainty: z.number().positive() });

const off = z.enum(['before', 'now']).nullable();

export const compared = z.strictObject({
  file: z.string(),
  against: z.string(),
  unit: z.enum(['arcmin', 'scale']),
  known: z.array(z.strictObject({ wavelengthNm: nm, before: z.number(), now: z.number(), difference, off })),
  tubes: z.array(
    z.strictObject({
      before: z.string(),
      now: z.string(),
      lines: z.array(
        z.strictObject({
          before: index.nullable(),
          now: index.nullable(),
          differenceNm: difference.nullable(),
          wavelengthNm: nm,
          standardUncertaintyNm: positive,
          off,
        }),
      ),
    }),
  ),
  stationCheck: z.strictObject({
    unit: z.enum(['arcmin', 'scale']),
    central: difference.nullable(),
    curve: z
      .strictObject({ commonRangeNm: z.tuple([nm, nm]), shift: difference, stretch: difference })
      .nullable(),
    scatter: z.strictObject({ before: z.number(), now: z.number() }).nullable(),
    findings: z.array(z.enum(['central-moved', 'readings-shifted', 'prism-changed', 'scatter-worse'])),
    sentence: z.string().min(1),
  }),
});

const candidate = z.strictObject({
  substance: z.string().min(1),
  symbol: z.string().min(1).nullable(),
  with: z.array(z.string()),
  indistinguishable: z.array(z.string()),
  probability,
  matches: z.array(
    z.strictObject({
      index,
      substance: z.string().min(1),
      wavelengthNm: nm,
      residualNm: z.number(),
      residualSigma: z.number(),
    }),
  ),
  unexplained: z.array(index),
  reasonAgainst: z.string().min(1).nullable(),
  missing: z.array(z.strictObject({ wavelengthNm: nm, chanceSeen: probability })),
});

const nextLook = z
  .strictObject({ reading: z.string().min(1), wavelengthNm: nm, separates: z.array(z.string()).min(2) })
  .nullable();

export const identified = z.strictObject({
  file: z.string(),
  title: z.string(),
  tube: z.string().min(1),
  calibration,
  shift: z
    .strictObject({ value: z.number(), u: z.number().positive(), unit: z.enum(['arcmin', 'scale']) })
    .nullable(),
  lines: z.array(
    z.strictObject({
      index,
      deviationDeg: z.number().min(0).max(180).nullable(),
      wavelengthNm: nm.nullable(),
      standardUncertaintyNm: z.number().positive().nullable(),
      correctedNm: nm.nullable(),
      correctedUncertaintyNm: z.number().positive().nullable(),
      extrapolated: z.boolean(),
      status: z.enum(['used', 'slip']),
      message: z.string().min(1).nullable(),
    }),
  ),
  candidates: z.array(candidate),
  verdict: z.strictObject({
    kind: z.enum(['identified', 'undecided', 'unlisted', 'held-back']),
    substance: z.string().nullable(),
    sentence: z.string().min(1),
    nextLook,
  }),
  warnings: z.array(warning),
});

export const verified = z.strictObject({
  file: z.string(),
  tube: z.string().min(1),
  expected: z.string().min(1),
  outcome: z.enum(['supported', 'contradicted', 'insufficient']),
  /** One sentence. */
  reason: z.string().regex(/^[^a-z\s].*[.?!]$/),
  probability: probability.nullable(),
  best: z.string().nullable(),
  answer: z.string().nullable(),
  answerAgrees: z.boolean().nullable(),
  answerBeforeRanking: z.boolean().nullable(),
  observers: z.array(z.string().min(1)),
  station: z.string().min(1).nullable(),
  date: z.string().min(1).nullable(),
  lines: z.int().min(0),
  slips: z.int().min(0),
  nextLook,
  blame: z.array(
    z.strictObject({
      step: z.enum(['central', 'known', 'unknown', 'answer']),
      index: index.nullable(),
      kind: z.string().regex(/^[a-z][a-z0-9-]*$/),
      message: z.string().min(1),
    }),
  ),
});

/** A row of the key that nobody handed in. */
export const missed = z.strictObject({
  ...verified.shape,
  tube: z.string(),
  outcome: z.literal('missing'),
  probability: z.null(),
  best: z.null(),
  answer: z.null(),
  blame: z.array(z.never()),
});

export const converted = z.strictObject({
  reading: z.string(),
  deviationDeg: z.number().nullable(),
  wavelengthNm: nm.nullable(),
  standardUncertaintyNm: z.number().positive().nullable(),
  extrapolated: z.boolean(),
  color: z.string().nullable(),
  near: z.array(z.strictObject({ substance: z.string(), wavelengthNm: nm })),
});

export const predicted = z.strictObject({
  substance: z.string().nullable(),
  // The lamp of several substances that was asked for.
  lamp: z.string().nullable(),
  wavelengthNm: nm,
  // The lines behind the row: several where the bench shows them as one.
  linesNm: z.array(nm).min(1),
  reading: z.string().nullable(),
  deviationDeg: z.number().nullable(),
  color: z.string(),
  brightness: z.enum(['strong', 'medium', 'weak']).nullable(),
  extrapolated: z.boolean(),
});

export const advised = z.strictObject({
  lamp: z.string(),
  lines: z.array(
    z.strictObject({
      wavelengthNm: nm,
      linesNm: z.array(nm).min(1),
      reading: z.string().nullable(),
      color: z.string(),
      brightness: z.enum(['strong', 'medium', 'weak']),
      extrapolated: z.boolean(),
      rmsUncertaintyNm: z.number().positive(),
    }),
  ),
  rmsUncertaintyNm: z.number().positive(),
  nowNm: z.number().positive(),
  bestNm: z.number().positive(),
  tubes: z.array(z.string()).min(1),
});
