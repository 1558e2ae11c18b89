import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { analyseBench } from '../../src/analysis/analyse.ts';
import { roundWithUncertainty } from '../../src/numeric/round-uncertainty.ts';
import { identifyObjects } from '../../src/present/identify-json.ts';
import { probabilityText, signedText } from '../../src/present/quantity-text.ts';
import { renderReport } from '../../src/present/report/write-report.ts';
import { readRecord } from '../../src/record/read-record.ts';

test('the report of an example bench holds the numbers that identify --json prints', () => {
  const file = new URL('../../data/examples/harbour-lane-bench-12.json', import.meta.url);
  const record = readRecord(readFileSync(file, 'utf8'));
  if (!record.ok) throw new Error('the example is no record');
  const analysis = analyseBench(record.bench);
  const objects = identifyObjects('bench.json', analysis, record.warnings);
  const report = renderReport(analysis, 'csv', { file: 'bench.json', generatedOn: null });
  const rows = Papa.parse<string[]>(report).data.map((row) => row.join(' '));

  for (const { tube, lines, candidates } of objects) {
    for (const { index, wavelengthNm, standardUncertaintyNm } of lines) {
      const { value, u } = roundWithUncertainty(wavelengthNm!, standardUncertaintyNm!);
      expect(
        rows.some((row) => row.startsWith(`${tube} ${index + 1} `) && row.includes(` ${value} ${u}`)),
      ).toBe(true);
    }
    const leading = candidates[0]!;
    expect(
      rows.some(
        (row) => row.includes(leading.substance) && row.includes(probabilityText(leading.probability)),
      ),
    ).toBe(true);
    for (const { wavelengthNm, residualNm, residualSigma } of leading.matches) {
      const match = `${wavelengthNm.toFixed(2)} ${signedText(residualNm, 1)} ${signedText(residualSigma, 1)}`;
      expect(
        rows.some((row) => row.includes(match)),
        match,
      ).toBe(true);
    }
  }
  for (const { residual } of objects[0]!.calibration.lines) {
    expect(report).toContain(signedText(residual, 2));
  }
});
