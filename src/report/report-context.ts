import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import type { Outlook } from '#verdict/outlook/outlook';
import type { RecordLog } from '#verdict/record-log';
import type { Caution, PartVerdict, Verdict } from '#verdict/verdict';
import { anchorOf } from './html/anchor.ts';
import { html, joined, type Markup, quoted } from './html/markup.ts';
import { type FigureLink, figureLinks } from './walk/figure-links.ts';
import { entriesOfSessions } from './words/action-words.ts';

/** What every section needs besides its own data: names for ids, links to figures, evidence and cautions. */
export interface ReportContext {
  readonly verdict: Verdict;
  /** How far the verdict can still move, where it was worked out. */
  readonly outlook?: Outlook;
  /** The log as it was written, where it stands in the report. */
  readonly log?: RecordLog;
  /** The product as recorded, where it was handed over. */
  readonly product?: Assessment['product'];
  readonly figure: FigureLink;
  /** The name of a part, or the id itself where it names none. */
  partName(id: string): string;
  /** The name of a part or fastener, or the id itself where it names neither. */
  anyName(id: string): string;
  /** Evidence ids as links to the list of evidence, log entries as links to the log where it stands in the report, others as text. */
  evidence(ids: readonly string[]): Markup;
  /** Cautions that apply at any of these ids. */
  cautionsAt(ids: readonly string[]): readonly Caution[];
}

/** One section of the report, in the order of the page. */
export interface ReportSection {
  readonly id: string;
  readonly title: string;
  readonly body: Markup;
  /** Places inside the section that the contents name too. */
  readonly below?: readonly { readonly id: string; readonly title: string }[];
}

/** What else the sections share, where it was worked out. */
interface ContextExtras {
  readonly outlook?: Outlook | undefined;
  readonly log?: RecordLog | undefined;
  readonly product?: Assessment['product'] | undefined;
}

/** What do the sections of this report share? */
export function reportContext(verdict: Verdict, { outlook, log, product }: ContextExtras = {}): ReportContext {
  const names = new Map(verdict.parts.map(({ part, name }) => [part, name]));
  const fasteners = fastenerNames(verdict);
  const listed = new Set(verdict.evidence.map(({ id }) => id));
  const partName = (id: string) => names.get(id) ?? id;
  return {
    verdict,
    ...(outlook === undefined ? {} : { outlook }),
    ...(log === undefined ? {} : { log }),
    ...(product === undefined ? {} : { product }),
    figure: figureLinks(verdict),
    partName,
    anyName: (id) => fasteners.get(id) ?? partName(id),
    evidence: (ids) => {
      const links = ids.filter((id) => listed.has(id)).map(evidenceLink);
      const others = entriesOfSessions(ids.filter((id) => !listed.has(id))).map((group) => entryLinks(group, log));
      return joined([...links, ...others], ', ');
    },
    cautionsAt: (ids) => verdict.cautions.filter(({ where }) => where.some((place) => ids.includes(place))),
  };
}

function fastenerNames({ parts, burden }: Verdict): ReadonlyMap<string, string> {
  const routes = parts.flatMap(({ best, observed, declared }) => [best, observed, declared]);
  const used = routes.flatMap((route) => route?.lines ?? []).flatMap(({ fasteners }) => fasteners);
  return new Map([
    ...burden.map(({ fastener, name }) => [fastener, name] as const),
    ...used.map(({ id, name }) => [id, name] as const),
  ]);
}

function evidenceLink(id: string): Markup {
  return html`<a href="#${anchorOf('evidence', id)}">${quoted(id)}</a>`;
}

/** Which parts does the index weigh, in the order of the law (Annex IV point 5)? Several of one role stay as recorded. */
export function priorityParts(verdict: Verdict): readonly PartVerdict[] {
  return PRIORITY_ROLES.flatMap((role) => verdict.parts.filter(({ priority }) => priority === role));
}

/** Which fragment has the section of a part? */
export function partAnchor(id: string): string {
  return anchorOf('part', id);
}

/** Which fragment has the line of a log entry? */
export function entryAnchor(session: string, entry: string): string {
  return anchorOf('log', `${session}/${entry}`);
}

/** A session once, then its entries, each a link where the report holds the log with it. */
function entryLinks({ id, entries }: ReturnType<typeof entriesOfSessions>[number], log: RecordLog | undefined): Markup {
  if (entries.length === 0) return quoted(id);
  const written = new Set(log?.sessions.find((session) => session.id === id)?.entries.map((entry) => entry.id));
  const links = entries.map((entry) =>
    written.has(entry) ? html`<a href="#${entryAnchor(id, entry)}">${quoted(entry)}</a>` : quoted(entry),
  );
  return joined([quoted(id), ...links], ' ');
}
