import type { LedgerLine, PartVerdict, RouteVerdict, Verdict } from '#verdict/verdict';
import { type CsvCell, csvText } from './csv.ts';

interface RouteLine {
  readonly part: PartVerdict;
  readonly basis: string;
  readonly line: LedgerLine;
}

const stepHeader = [
  'part id',
  'part',
  'role',
  'basis',
  'from step',
  'to step',
  'what is done',
  'tools',
  'fastener ids',
  'why the step ended',
  'mean time [s]',
  'median time [s]',
  'lowest time [s]',
  'highest time [s]',
  'times measured',
  'damage',
  'fasteners and tools count here',
  'evidence ids',
];

/** Which steps free each part, on every basis? CSV, one line a line of the ledger; times in seconds. */
export function renderCsvSteps(verdict: Verdict): string {
  return csvText(stepHeader, routeLines(verdict).map(stepRow));
}

const fastenerHeader = [
  'part id',
  'part',
  'basis',
  'from step',
  'to step',
  'fastener id',
  'fastener',
  'kind',
  'pieces',
  'class it leaves',
  'fasteners and tools count here',
  'steps saved were it released [all priority parts]',
  'time saved were it released [s, all priority parts]',
];

/** Which fasteners are released on the way to each part, on every basis? CSV, one line a fastener and step. */
export function renderCsvFasteners(verdict: Verdict): string {
  const timed = verdict.burden.some(({ seconds }) => seconds > 0);
  const burden = new Map(verdict.burden.map((entry) => [entry.fastener, entry]));
  const rows = routeLines(verdict).flatMap(({ part, basis, line }) =>
    line.fasteners.map((fastener): readonly CsvCell[] => {
      const { id, name, kind, count, leaves } = fastener;
      const saved = burden.get(id);
      const place = [part.part, part.name, basis, line.from, line.to];
      return [
        ...place,
        id,
        name,
        kind,
        count,
        leaves,
        line.inStretch,
        saved?.steps,
        timed ? saved?.seconds : undefined,
      ];
    }),
  );
  return csvText(fastenerHeader, rows);
}

function routeLines({ parts }: Verdict): readonly RouteLine[] {
  return parts.flatMap((part) => {
    const routes: readonly (readonly [string, RouteVerdict | undefined])[] = [
      ['declared', part.declared],
      ['observed', part.observed],
      ['best found', part.best],
    ];
    return routes.flatMap(([basis, route]) => (route?.lines ?? []).map((line) => ({ part, basis, line })));
  });
}

function stepRow({ part, basis, line }: RouteLine): readonly CsvCell[] {
  const { spread } = line;
  return [
    part.part,
    part.name,
    part.role,
    basis,
    line.from,
    line.to,
    line.does.join('; '),
    line.tools.join('; '),
    line.fasteners.map(({ id }) => id).join('; '),
    line.ended,
    line.seconds,
    spread?.median,
    spread?.low,
    spread?.high,
    spread?.n,
    line.damage,
    line.inStretch,
    line.evidence.join('; '),
  ];
}
