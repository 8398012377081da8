import { showScaled } from '#quantity/explained';
import { CLASS_TABLE } from '#schemes/eu-2023-1669/classes';
import { SCORE_WEIGHTS, SCORES, type Score } from '#schemes/eu-2023-1669/weights';
import { letterChangeWords } from '#verdict/reading-effects';
import type { BasisVerdict } from '#verdict/verdict';
import { type Content, html, joined, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext } from '../report-context.ts';
import { basisWords, scoreWords } from '../words/terms.ts';
import { factsByScore, type ScoreFacts } from './score-facts.ts';

/**
 * Why is the letter of a basis what it is? The sum of R (Regulation (EU) 2023/1669, Annex IV point 5), what each open score
 * is worth in it with the facts it waits for, widest first, and the readings under which the letter would be another.
 */
export function letterReasons(basis: BasisVerdict, context: ReportContext): Markup {
  if (basis.figures.notScorable.length > 0) return html``;
  const { groups, elsewhere } = factsByScore(basis);
  const spans = SCORES.map((score) => scoreSpan(basis, score));
  const open = spans
    .filter(({ score, low, high }) => low !== high || (groups.get(score) ?? []).length > 0)
    .sort((a, b) => (b.worth ?? Number.POSITIVE_INFINITY) - (a.worth ?? Number.POSITIVE_INFINITY));
  const settled = spans.filter((span) => !open.includes(span));
  const rest = settled.map(
    ({ score, low }) => html`${score} ${context.figure(basis.basis, [score], low ?? 'not scorable')}`,
  );
  return html`<h4>Why: ${basisWords[basis.basis]}</h4><p>${sumWords(basis)}</p>
${open.length > 0 ? html`<ul>${open.map((span) => openScore(span, groups.get(span.score) ?? [], { basis, context }))}</ul>` : undefined}
${open.length > 0 && rest.length > 0 ? html`<p>Settled: ${joined(rest, ', ')}.</p>` : undefined}
${elsewhere.length > 0 ? html`<p>Open besides, under no single score:</p>${facts(elsewhere)}` : undefined}
${otherReadings(basis, context)}`;
}

interface ScoreSpan {
  readonly score: Score;
  /** Two decimals; null where the end is not scorable. */
  readonly low: string | null;
  readonly high: string | null;
  /** What the score moves R by, in ten-thousandths; undefined where an end has no figure. */
  readonly worth: number | undefined;
}

function scoreSpan({ figures, low, high }: BasisVerdict, score: Score): ScoreSpan {
  const from = (low ?? figures).scores[score];
  const to = (high ?? figures).scores[score];
  const worth = from === null || to === null ? undefined : SCORE_WEIGHTS[score] * (hundredths(to) - hundredths(from));
  return { score, low: from, high: to, worth };
}

/** Scores are printed with two decimals, so that this is exact. */
function hundredths(score: string): number {
  return Math.round(Number(score) * 100);
}

interface Place {
  readonly basis: BasisVerdict;
  readonly context: ReportContext;
}

function openScore(span: ScoreSpan, missing: ScoreFacts, { basis, context }: Place): Markup {
  const { score, low, high, worth } = span;
  const range = low === high ? (low ?? 'open') : `${low ?? 'not scorable'} to ${high ?? 'not scorable'}`;
  const size =
    worth === undefined
      ? 'with an end below the scale'
      : worth === 0
        ? 'does not move R by itself'
        : `${showScaled(worth, 4)} of R`;
  return html`<li><strong>${scoreWords[score]}</strong>: ${score} ${context.figure(basis.basis, [score], range)}, ${size}.${facts(missing)}</li>`;
}

function facts(missing: ScoreFacts): Content {
  if (missing.length === 0) return undefined;
  return html`<ul>${missing.map(({ what, remedy }) => html`<li>Open: ${quoted(what)}. To settle it: ${quoted(remedy)}.</li>`)}</ul>`;
}

function sumWords({ figures, low, high, distance }: BasisVerdict): string {
  const formula = 'R = 0.25 SDD + 0.15 (SF + ST + SSP + SSU + SRI)';
  const { SDD, ...others } = figures.scores;
  if (figures.R !== null) {
    const sum = `${formula} = 0.25 × ${SDD} + 0.15 × (${SCORES.slice(1)
      .map((score) => others[score as keyof typeof others])
      .join(' + ')}) = ${figures.R}.`;
    const sign = distance !== undefined && /^\d/.test(distance.toThreshold) ? '+' : '';
    return distance === undefined
      ? sum
      : `${sum} To the threshold ${distance.threshold} it is ${sign}${distance.toThreshold}; beyond lies class ${distance.letterBeyond}.`;
  }
  const from = low?.R ?? null;
  const to = high?.R ?? null;
  if (from === null || to === null)
    return `${formula}, from ${from ?? 'not scorable'} to ${to ?? 'not scorable'} by what is open.`;
  const crossed = CLASS_TABLE.filter((row) => row.from > Number(from) * 10_000 && row.from <= Number(to) * 10_000).map(
    ({ letter, from: least }) => `${showScaled(least, 4)}, where class ${letter} begins`,
  );
  const within = crossed.length > 0 ? `On the way lies ${crossed.join(', and ')}.` : 'No threshold lies between.';
  return `${formula}, from ${from} to ${to} by what is open. ${within}`;
}

function otherReadings({ basis }: BasisVerdict, { verdict }: ReportContext): Content {
  const readings = verdict.interpretations.flatMap(({ question, others }) =>
    others.flatMap(({ value, changes }) => {
      const change = changes.find((candidate) => candidate.basis === basis);
      const words = change ? letterChangeWords(change).join(', ') : '';
      if (words === '') return [];
      return [html`<li>${quoted(question)} Read as ${quoted(value.replaceAll('-', ' '))}: ${quoted(words)}.</li>`];
    }),
  );
  if (readings.length === 0) return html`<p>No single other reading changes the letter on this basis.</p>`;
  return html`<p>Another letter, or perhaps none, by another <a href="#interpretations">interpretation</a>:</p><ul>${readings}</ul>`;
}
