/** What a folder under `src/` may import. `all-but` reads "every folder except these and itself". */
export type Arrow = readonly string[];

const pure = ['quantity', 'record', 'routes', 'schemes', 'swaps', 'verdict', 'report'] as const;

/** The folders that know no clock, file, network, locale, random source or DOM. */
export const pureFolders: readonly string[] = pure;

/**
 * Which folders may a folder import? The table of `CONTRIBUTING.md`; nothing that is not listed is allowed. The web
 * application may import the server's types, and only its types (`typeOnlyArrows`).
 */
export const arrows: Readonly<Record<string, Arrow>> = {
  quantity: [],
  record: ['quantity'],
  routes: ['record', 'quantity'],
  schemes: ['routes', 'record', 'quantity'],
  swaps: ['record', 'quantity'],
  verdict: ['schemes', 'routes', 'swaps', 'record', 'quantity'],
  report: ['verdict', 'schemes', 'routes', 'swaps', 'record', 'quantity'],
  store: ['record', 'quantity'],
  server: [...pure, 'store'],
  cli: [...pure, 'store', 'server'],
  web: [...pure],
};

/** Which further folders may be imported with `import type` alone? */
export const typeOnlyArrows: Readonly<Record<string, Arrow>> = { web: ['server'] };

/** Which packages may a pure folder import? Elsewhere `package.json` decides. */
export const packagesOfPureFolders: Readonly<Record<string, readonly string[]>> = {
  quantity: ['@stdlib/stats-base-dists-beta-quantile'],
  record: ['fastest-levenshtein', 'js-yaml', 'rfc6902', 'zod'],
  routes: ['zod'],
  schemes: ['zod'],
  swaps: ['zod'],
  verdict: ['zod'],
  report: [],
};
