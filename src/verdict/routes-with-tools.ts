import { searchWithTools } from '#schemes/eu-2023-1669/bases/best-search';
import { type Groundwork, readingsOf } from './index-bases.ts';

/** How one part is reached with the named tools only, or why it is not and which further tools would be enough. */
export interface RouteWithTools {
  readonly part: string;
  readonly shown: ReturnType<typeof searchWithTools>;
}

/**
 * With these tools and no others, by which route is each part reached? Parts as named, otherwise every priority part, in the
 * record's order; by what is shown.
 */
export const routesWithTools = (
  { source, problems }: Groundwork,
  tools: readonly string[],
  parts: readonly string[] = problems.pessimistic.priorityParts,
): readonly RouteWithTools[] => {
  const readings = readingsOf(source.assessment);
  return parts.map((part) => ({ part, shown: searchWithTools(problems, { source, readings, part }, new Set(tools)) }));
};
