import type { ScopeVerdict } from '#schemes/eu-2023-1669/scope';

/** What is missing before the product is known to be in scope? No lines where it is. */
export const scopeLines = (scope: ScopeVerdict): readonly string[] =>
  scope.inScope === 'open'
    ? [
        'Scope open: whether the scheme covers the product is not settled.',
        ...scope.missing.map(({ what, why, remedy }) => `  ${what}: ${why}; ${remedy}`),
        '',
      ]
    : [];
