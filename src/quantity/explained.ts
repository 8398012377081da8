/**
 * What does one figure of a computed result hold? A count, an exact decimal (scaled integer), a word, or one of the two
 * states that are no value: open (not known yet) and not scorable (below the scale), which are never turned into a zero.
 */
export type FigureValue =
  | { readonly kind: 'count'; readonly value: number }
  | { readonly kind: 'decimal'; readonly scaled: number; readonly decimals: number }
  | { readonly kind: 'word'; readonly value: string }
  | { readonly kind: 'open' }
  | { readonly kind: 'not-scorable'; readonly why: string };

/** Which rule made a figure? The identifier in the rule book, the clause or source it comes from, and the formula in words. */
export interface FigureRule {
  readonly id: string;
  readonly clause: string;
  readonly formula: string;
}

/** Which fact of the record went into a figure? Its address (id path), its value as the rule read it, and the evidence ids. */
export interface FigureInput {
  readonly address: string;
  readonly label: string;
  readonly value: FigureValue;
  readonly evidence: readonly string[];
}

/** What is not established that a figure depends on? Address, what it is in words, and what would settle it. */
export interface MissingFact {
  readonly address: string;
  readonly what: string;
  readonly remedy: string;
}

/**
 * Why is a figure what it is? One node of the explanation tree: its value can be recomputed by its rule from the values
 * of its children and inputs alone. Screen, report and command line render this one tree.
 */
export interface Explained {
  readonly id: string;
  readonly label: string;
  readonly value: FigureValue;
  readonly unit?: string;
  readonly rule: FigureRule;
  readonly inputs: readonly FigureInput[];
  readonly missing: readonly MissingFact[];
  readonly children: readonly Explained[];
}

/** How is a figure recomputed? One pure function a rule id, reading only the node's children and inputs. */
export type RuleBook = Readonly<Record<string, (node: Explained) => FigureValue>>;

/** Which nodes of a tree do not follow from their children and inputs? Unknown rules count as not following. */
export const recomputeMismatches = (root: Explained, rules: RuleBook): readonly string[] => {
  const found: string[] = [];
  const visit = (node: Explained, path: string): void => {
    const rule = rules[node.rule.id];
    if (!rule) found.push(`${path}: no rule ${node.rule.id}`);
    else if (!sameFigure(rule(node), node.value))
      found.push(`${path}: ${showFigure(rule(node))} is not ${showFigure(node.value)}`);
    for (const child of node.children) visit(child, `${path}/${child.id}`);
  };
  visit(root, root.id);
  return found;
};

/** Are two figure values the same, states included? */
const sameFigure = (a: FigureValue, b: FigureValue): boolean => JSON.stringify(a) === JSON.stringify(b);

/** How does a figure read in text? Decimals with all their places; open and not scorable in words, never as 0. */
export const showFigure = (value: FigureValue): string => {
  switch (value.kind) {
    case 'count':
      return String(value.value);
    case 'decimal':
      return showScaled(value.scaled, value.decimals);
    case 'word':
      return value.value;
    case 'open':
      return 'open';
    case 'not-scorable':
      return 'not scorable';
  }
};

/** How does the figure of a node read with its unit? `1 step`, `4 steps`; what is no number has none. */
export const showWithUnit = ({ value, unit }: Pick<Explained, 'value' | 'unit'>): string => {
  const shown = showFigure(value);
  if (unit === undefined || (value.kind !== 'count' && value.kind !== 'decimal')) return shown;
  const isOne = shown === '1' && unit.length > 1 && unit.endsWith('s');
  return `${shown} ${isOne ? unit.slice(0, -1) : unit}`;
};

/** How does a scaled integer read as a decimal? `showScaled(33350, 4)` is `3.3350`. */
export const showScaled = (scaled: number, decimals: number): string => {
  const digits = String(Math.abs(scaled)).padStart(decimals + 1, '0');
  const sign = scaled < 0 ? '-' : '';
  return decimals === 0 ? `${sign}${digits}` : `${sign}${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
};

/** Which node of a tree stands at an id path such as `observed/R/SDD/battery`? `undefined` when there is none. */
export const findExplained = (root: Explained, path: string): Explained | undefined => {
  let node: Explained | undefined = root;
  for (const id of path.split('/').filter(Boolean)) node = node?.children.find((child) => child.id === id);
  return node;
};
