/** What speaks most against a row of the ranking: where it loses most of its evidence against the leading row. */
import { sumOf } from '../../numeric/sum.ts';
import { LOSS_WORTH_SAYING, NAMED_FROM } from '../assumptions.ts';
import { companionOf } from '../evidence/mixtures.ts';
import type { ReasonAgainst } from '../types.ts';
import { hasToo, type ReadingReport } from './candidate-report.ts';
import type { Row } from './rank.ts';

interface ReportedRow {
  readonly row: Row;
  readonly report: ReadingReport;
}

interface Loss {
  readonly reason: ReasonAgainst;
  /** ln evidence lost by it. */
  readonly loss: number;
}

/** What neither the readings nor the row's assumptions cost is lost by lines that should be there and are not. */
export function reasonAgainst({ row, report }: ReportedRow, lead: ReportedRow): ReasonAgainst {
  if (row.tube === null) return { what: 'by-chance' };
  const found = [...readingLosses(report, lead.report), ...assumed(row, report)];
  const total = lead.row.logEvidence - row.logEvidence;
  const unaccounted = total - sumOf(found, ({ loss }) => loss);
  const telling = report.missing.filter(({ wavelengthNm }) => !hasToo(lead.report, wavelengthNm));
  const lines = telling.length > 0 ? telling : report.missing;
  const missing: Loss[] = lines.length > 0 ? [{ reason: { what: 'missing', lines }, loss: unaccounted }] : [];
  const worst = [...missing, ...found].reduce((most, each) => (each.loss > most.loss ? each : most));
  return total < LOSS_WORTH_SAYING || worst.loss < LOSS_WORTH_SAYING ? { what: 'little' } : worst.reason;
}

function readingLosses(report: ReadingReport, lead: ReadingReport): Loss[] {
  const leading = new Map(lead.contributions.map(({ index, logOdds }) => [index, logOdds]));
  const losses = report.contributions.map(({ index, logOdds }) => ({
    index,
    // Of an unlisted tube every reading could be a line.
    loss: (leading.get(index) ?? 0) - logOdds,
  }));
  const sum = (some: typeof losses): number => sumOf(some, ({ loss }) => loss);
  const unexplained = losses.filter(({ index }) => report.unexplained.includes(index));
  const matched = losses.filter(({ index }) => !report.unexplained.includes(index));
  const most = Math.max(...unexplained.map(({ loss }) => loss));
  const indexes = unexplained.filter(({ loss }) => loss > NAMED_FROM * most).map(({ index }) => index);
  const [farthest] = [...report.matches].sort(
    (a, b) => Math.abs(b.residualSigma) - Math.abs(a.residualSigma),
  );
  const off: Loss[] = farthest ? [{ reason: { what: 'off', match: farthest }, loss: sum(matched) }] : [];
  return [{ reason: { what: 'unexplained', indexes }, loss: sum(unexplained) }, ...off];
}

/** What the row has to assume: slips, a shift of all readings, a second gas, a metal that its gas would do without. */
function assumed({ tube, reading, slips, admixtures, logEvidence }: Row, { matches }: ReadingReport): Loss[] {
  const losses: Loss[] = [];
  const hypothesis = slips?.hypotheses[0];
  if (reading?.corrected && hypothesis)
    losses.push({ reason: { what: 'misread', count: hypothesis.slips.size }, loss: -hypothesis.logPrior });
  const view = reading?.assumption.likelihoods.view;
  if (view && view.explanation !== 'plain' && matches.length > 0)
    losses.push({ reason: { what: 'shifted' }, loss: -view.logWeight });
  const [gas] = admixtures;
  if (gas && tube && reading) {
    const what = companionOf(tube, gas) ?? 'two-gases';
    losses.push({ reason: { what }, loss: reading.found.log - logEvidence });
  }
  return losses;
}
