/** The rows of a ranking: one for each tube or class of indistinguishable tubes, for mixtures, and for "unlisted". */
import type { TubeSpectrum } from '../../lines/spectrum.ts';
import { logDifference, logSum, normalised } from '../../numeric/log-sum.ts';
import { remembered } from '../../numeric/remembered.ts';
import {
  AS_GOOD_AS,
  COARSE_ERROR,
  ENOUGH_UNEXPLAINED,
  HOPELESS,
  MOST_ADMIXTURES,
  MOST_MAINS,
  NEARLY_LEADING,
  UNLIKELY,
  UNLISTED_PRIOR,
  WORTH_A_COMPANION,
} from '../assumptions.ts';
import { type CommonShift, commonShift } from '../bench/common-shift.ts';
import {
  type Assumption,
  type CandidateEvidence,
  candidateEvidence,
  type Evidence,
  inAnyOrder,
  matchedLines,
  partialEvidence,
  unlistedEvidence,
} from '../evidence/candidate-evidence.ts';
import {
  areCompanions,
  companionOf,
  likelyAdmixtures,
  type Mixture,
  mayBeMixed,
  mixtureOf,
  withCompanions,
} from '../evidence/mixtures.ts';
import { type SlipEvidence, slipEvidence } from '../evidence/slip-search.ts';
import { evidencePower } from './evidence-power.ts';
import { indistinguishableGroups } from './indistinguishable.ts';

export interface Row {
  /** The commonest tube of the row; null for "unlisted". */
  readonly tube: TubeSpectrum | null;
  readonly admixtures: readonly TubeSpectrum[];
  readonly indistinguishable: readonly TubeSpectrum[];
  readonly logEvidence: number;
  readonly probability: number;
  /** The readings as this row understands them (slips corrected), and under which assumption. */
  readonly reading: RowReading | null;
  readonly slips: SlipEvidence | null;
}

export interface RowReading {
  /** Slips are corrected. */
  readonly corrected: boolean;
  readonly evidence: Evidence;
  readonly found: CandidateEvidence;
  readonly assumption: Assumption;
}

/** By how much a row takes all readings to be shifted; null where there is nothing to speak of. */
export function shiftOf({ evidence, assumption }: RowReading): CommonShift | null {
  return commonShift(evidence, assumption, matchedLines(evidence, assumption));
}

/** All rows with probabilities that sum to 1, likeliest first. The likeliest after a quick look are looked at first. */
export function rankedRows(candidates: readonly TubeSpectrum[], evidence: Evidence, u: number): Row[] {
  // The likeliest view, and those of a moved bench or through another curve, by which quite another tube may lead.
  const { curve } = evidence.allLikelihoods[0]!.view;
  const first = evidence.allLikelihoods.filter(
    ({ view }, i) =>
      i === 0 || view.explanation === 'moved' || (view.explanation === 'plain' && view.curve !== curve),
  );
  const coarse = evidence.resolutions.slice(0, 1);
  // Every tube through one view after the other, as long as the allowance lasts; what is found is kept, and summed at the end.
  let views = 0;
  do {
    for (const tube of candidates) partialEvidence(tube, evidence, first[views]!, coarse[0]!, 'coarse');
    views += 1;
  } while (views < first.length && !evidence.allowance.isSpent);
  const quick = candidates
    .map((tube) => ({
      tube,
      found: candidateEvidence(tube, evidence, first.slice(0, views), coarse, 'coarse'),
    }))
    .sort((a, b) => b.found.log - a.found.log);
  const unlisted = unlistedRow(candidates.length, evidence);
  // Not "unlisted": where no tube fits as read, several slips may be what makes one of them fit.
  const lead = quick[0]!.found.log;
  const single = quick.map(({ tube, found }): Weighed => {
    // A slip can make up for a good deal, so the closer look begins far behind the lead.
    if (found.log < lead - HOPELESS || evidence.allowance.isSpent)
      return { tube, found, slips: { log: found.log, hypotheses: [] } };
    if (found.log < lead - UNLIKELY) {
      const slips = slipEvidence(tube, evidence, found, lead);
      if (slips.log < lead - UNLIKELY) return { tube, found, slips };
    }
    const full = closely(tube, evidence);
    return { tube, found: full, slips: slipEvidence(tube, evidence, full, lead) };
  });
  const groups = indistinguishableGroups(
    candidates,
    (tube) => evidence.spectra.onCurve(tube, curve),
    u,
    evidence.resolutions[0]!.size,
  );
  const rows = [
    ...withCompanionRows(
      groupedRows(groups, single, evidence),
      companionRows(quick, lead, unlisted.logEvidence, first, evidence),
    ),
    ...mixtureRows(candidates, groups, single, evidence, u),
    unlisted,
  ];
  const power = evidencePower(evidence.readings.length);
  const probabilities = normalised(rows.map((row) => power * row.logEvidence));
  return rows
    .map((row, i) => ({ probability: probabilities[i]!, ...row }))
    .sort((a, b) => b.probability - a.probability);
}

const closely = (tube: TubeSpectrum, evidence: Evidence): CandidateEvidence =>
  inAnyOrder(candidateEvidence(tube, evidence), evidence);

interface Weighed {
  readonly tube: TubeSpectrum;
  readonly found: CandidateEvidence;
  readonly slips: SlipEvidence;
}

type Unranked = Omit<Row, 'probability'>;

function groupedRows(
  groups: readonly TubeSpectrum[][],
  single: readonly Weighed[],
  evidence: Evidence,
): Unranked[] {
  const byTube = new Map(single.map((weighed) => [weighed.tube, weighed]));
  return groups.map((group) => {
    const members = group.map((tube) => byTube.get(tube)!);
    const likeliest = members.reduce((lead, member) => (member.slips.log > lead.slips.log ? member : lead));
    // The row speaks with the lines of the tube it is named by, where they serve.
    const named = members[0]!;
    const best = named.slips.log > likeliest.slips.log - AS_GOOD_AS ? named : likeliest;
    return {
      tube: group[0]!,
      admixtures: [],
      indistinguishable: group.slice(1),
      logEvidence: logSum(members.map((member) => member.slips.log)),
      reading: rowReading(evidence, best.found, best.slips),
      slips: best.slips,
    };
  });
}

/** The readings with the likeliest slips corrected, where corrected they are likelier than as they stand. */
function rowReading(evidence: Evidence, found: CandidateEvidence, slips: SlipEvidence): RowReading | null {
  const hypothesis = slips.hypotheses[0];
  if (hypothesis && hypothesis.log > found.log && hypothesis.found.best) {
    return {
      corrected: true,
      evidence: hypothesis.evidence,
      found: hypothesis.found,
      assumption: hypothesis.found.best,
    };
  }
  return found.best ? { corrected: false, evidence, found, assumption: found.best } : null;
}

function mixtureRows(
  candidates: readonly TubeSpectrum[],
  groups: readonly TubeSpectrum[][],
  single: readonly Weighed[],
  evidence: Evidence,
  u: number,
): Unranked[] {
  if (candidates.length < 2 || evidence.allowance.isSpent) return [];
  const leaders = [...single].sort((a, b) => b.slips.log - a.slips.log).slice(0, MOST_MAINS);
  const unexplainedBy = leaders.map((leader) => unexplainedOrdinates(evidence, leader));
  // A tube that hardly fits may leave little unexplained by strays and slips; the leading one must.
  if (unexplainedBy[0]!.length < ENOUGH_UNEXPLAINED) return [];
  const pairs = leaders.flatMap((leader, i) => {
    const view = leader.found.best?.likelihoods.view ?? evidence.allLikelihoods[0]!.view;
    const others = candidates
      .filter((tube) => !areCompanions(leader.tube, tube) && mayBeMixed(leader.tube, tube, candidates))
      .map((tube) => ({ tube, lines: evidence.spectra.through(tube, view, evidence.resolutions[0]!).lines }));
    return likelyAdmixtures(others, unexplainedBy[i]!, 3 * u, MOST_ADMIXTURES).map((admixture) => {
      const mixture = mixtureOf(leader.tube, admixture, candidates.length);
      const found = closely(mixture.spectrum, evidence);
      return { mixture, found, log: found.log + mixture.logPrior };
    });
  });
  return onePerPair(pairs, groups).map(({ main, admixture, found, log }) => ({
    tube: main[0]!,
    admixtures: [admixture],
    indistinguishable: main.slice(1),
    logEvidence: log,
    reading: rowReading(evidence, found, { log: found.log, hypotheses: [] }),
    slips: null,
  }));
}

/**
 * A tube whose companion may show besides is the tube. One whose starting gas surely shows is a row of its own, as a mixture is;
 * light of the room is nothing of the tube, and makes no second row of it.
 */
function withCompanionRows(rows: readonly Unranked[], accompanied: readonly Unranked[]): Unranked[] {
  const beside: Unranked[] = [];
  const folded = rows.map((row): Unranked => {
    const own = accompanied.filter(({ tube }) => tube === row.tube);
    const surely = own
      .filter(({ logEvidence }) => logEvidence > row.logEvidence)
      .map((each) => ({ ...each, indistinguishable: row.indistinguishable }));
    const [lit] = surely.filter(({ admixtures }) => companionOf(row.tube!, admixtures[0]!) === 'room-light');
    beside.push(...surely.filter((each) => each !== lit));
    const perhaps = own.filter(({ logEvidence }) => logEvidence <= row.logEvidence);
    const all = [row, ...perhaps, ...(lit ? [lit] : [])];
    return { ...(lit ?? row), logEvidence: logSum(all.map(({ logEvidence }) => logEvidence)) };
  });
  return [...folded, ...beside];
}

/** Tubes whose companion shows (`withCompanions`), where the companion, the tube, or no tube by itself fits best. */
function companionRows(
  quick: readonly { readonly tube: TubeSpectrum; readonly found: CandidateEvidence }[],
  lead: number,
  unlisted: number,
  first: Evidence['allLikelihoods'],
  evidence: Evidence,
): Unranked[] {
  if (evidence.allowance.isSpent) return [];
  const leading = quick.filter(({ found }) => found.log > lead - NEARLY_LEADING);
  const candidates = quick.map(({ tube }) => tube);
  const isPossible = ({ main, admixture }: Mixture): boolean =>
    mayBeMixed(main, admixture, candidates) &&
    (lead < unlisted ||
      leading.some(
        ({ tube: { substance } }) => substance === main.substance || substance === admixture.substance,
      ));
  const coarse = evidence.resolutions.slice(0, 1);
  // A tube that leads by the likeliest view of the bench is not looked at through the others for its companion.
  const leadsByLikeliest = ({ tube, found }: (typeof quick)[number]): boolean =>
    candidateEvidence(tube, evidence, first.slice(0, 1), coarse, 'coarse').log > found.log - Math.LN2;
  const views = lead >= unlisted && leading.every(leadsByLikeliest) ? first.slice(0, 1) : first;
  const quickLog = new Map(quick.map(({ tube, found }) => [tube.substance, found.log]));
  // Many tubes have one companion.
  const alone = new Map<TubeSpectrum, number>();
  const logAlone = (companion: TubeSpectrum): number =>
    remembered(alone, companion, () => closely(companion, evidence).log);
  return quick
    .flatMap(({ tube }) => withCompanions(tube))
    .filter(isPossible)
    .filter(({ main, admixture, spectrum, logPrior }) => {
      const { log } = candidateEvidence(spectrum, evidence, views, coarse, 'coarse');
      const companion = quickLog.get(admixture.substance) ?? Number.NEGATIVE_INFINITY;
      // What is far behind its companion alone, or behind the tube alone, adds nothing to them.
      const worth = Math.max(lead - UNLIKELY, companion - COARSE_ERROR);
      return log > worth && log + logPrior > quickLog.get(main.substance)! - NEARLY_LEADING;
    })
    .flatMap(({ main, admixture, spectrum, logPrior }): Unranked[] => {
      const found = closely(spectrum, evidence);
      // A tube whose lines explain nothing that its companion leaves unexplained is, as far as this record goes, the
      // companion: what its own lines add is all that counts.
      const least = quickLog.has(admixture.substance) ? WORTH_A_COMPANION.beside : WORTH_A_COMPANION.alone;
      const added = logDifference(found.log, logAlone(admixture) + least);
      if (added === Number.NEGATIVE_INFINITY) return [];
      const reading = rowReading(evidence, found, { log: found.log, hypotheses: [] });
      return [
        {
          tube: main,
          admixtures: [admixture],
          indistinguishable: [],
          logEvidence: added + logPrior,
          reading,
          slips: null,
        },
      ];
    });
}

interface Pair {
  readonly mixture: Mixture;
  readonly found: CandidateEvidence;
  readonly log: number;
}

/** "A with B", "B with A" and their indistinguishable relatives are one possibility, told as the likeliest of them. */
function onePerPair(
  pairs: readonly Pair[],
  groups: readonly TubeSpectrum[][],
): { main: readonly TubeSpectrum[]; admixture: TubeSpectrum; found: CandidateEvidence; log: number }[] {
  const groupOf = (tube: TubeSpectrum): TubeSpectrum[] =>
    groups.find((group) => group.includes(tube)) ?? [tube];
  const byPair = new Map<string, Pair[]>();
  for (const pair of pairs) {
    const names = [pair.mixture.main, pair.mixture.admixture].map((tube) => groupOf(tube)[0]!.substance);
    if (names[0] === names[1]) continue;
    const key = names.sort().join('+');
    byPair.set(key, [...(byPair.get(key) ?? []), pair]);
  }
  return [...byPair.values()].map((same) => {
    const best = same.reduce((lead, pair) => (pair.log > lead.log ? pair : lead));
    return {
      main: groupOf(best.mixture.main),
      admixture: groupOf(best.mixture.admixture)[0]!,
      found: best.found,
      log: logSum(same.map(({ log }) => log)),
    };
  });
}

/** One slip is likelier than another gas; several may be lines of it. */
function unexplainedOrdinates(evidence: Evidence, { found, slips }: Weighed): number[] {
  const single = slips.hypotheses.filter((hypothesis) => hypothesis.slips.size === 1);
  const reading = rowReading(evidence, found, { log: slips.log, hypotheses: single });
  if (!reading) return evidence.readings.map(({ ordinate }) => ordinate);
  const matches = matchedLines(reading.evidence, reading.assumption);
  return reading.evidence.readings.filter((_, i) => matches[i] === null).map(({ ordinate }) => ordinate);
}

function unlistedRow(candidates: number, evidence: Evidence): Unranked {
  return {
    tube: null,
    admixtures: [],
    indistinguishable: [],
    logEvidence: unlistedEvidence(evidence) + Math.log(UNLISTED_PRIOR * candidates),
    reading: null,
    slips: null,
  };
}
