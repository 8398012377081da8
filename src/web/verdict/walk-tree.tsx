import type { KeyboardEvent } from 'react';
import { type Explained, type FigureInput, showFigure, showWithUnit } from '#quantity/explained';
import { walkMove } from './walk-keys.ts';
import styles from './walk-tree.module.css';

/** The explanation of a figure as the engine gave it: a line a figure, folded; the keys of a tree move in it. */
export const WalkTree = ({ root }: { readonly root: Explained }) => (
  // biome-ignore lint/a11y/noStaticElementInteractions: keys beside those of the summaries, which are the controls
  <div className={styles.tree} onKeyDown={onKey}>
    <Node node={root} open />
  </div>
);

const Node = ({ node, open }: { readonly node: Explained; readonly open?: boolean }) => (
  <details open={open}>
    <summary>
      <span dir="auto">{node.label}</span> <strong>{showWithUnit(node)}</strong>
    </summary>
    <div className={styles.inside}>
      {node.value.kind === 'not-scorable' && <p>Not scorable: {node.value.why}.</p>}
      <p>
        {node.rule.formula} <span className={styles.soft}>({node.rule.clause})</span>
      </p>
      {node.inputs.length > 0 && (
        <ul>
          {node.inputs.map((input) => (
            <Input key={`${input.address} ${input.label}`} input={input} />
          ))}
        </ul>
      )}
      {node.missing.map(({ address, what, remedy }) => (
        <p key={`${address} ${what}`}>
          <strong className={styles.needs}>Missing:</strong> {what}. To settle it: {remedy}{' '}
          <span className={styles.soft}>({address})</span>
        </p>
      ))}
      {node.children.map((child) => (
        <Node key={child.id} node={child} />
      ))}
    </div>
  </details>
);

const Input = ({ input }: { readonly input: FigureInput }) => (
  <li>
    <span dir="auto">{input.label}</span>: {showFigure(input.value)}{' '}
    <span className={styles.soft}>
      ({input.address}
      {input.evidence.length > 0 && `; evidence ${input.evidence.join(', ')}`})
    </span>
  </li>
);

const onKey = (event: KeyboardEvent<HTMLElement>): void => {
  const seen = [...event.currentTarget.querySelectorAll('summary')].filter((line) => line.checkVisibility());
  const lines = seen.map((line) => ({ depth: depthOf(line), isOpen: detailsOf(line).open, opens: true }));
  const at = seen.indexOf(event.target as HTMLElement);
  const move = walkMove(event.key, lines, at);
  const line = seen[at];
  if (!move || !line) return;
  event.preventDefault();
  if ('toggle' in move) detailsOf(line).open = !detailsOf(line).open;
  else seen[move.to]?.focus();
};

const detailsOf = (summary: HTMLElement): HTMLDetailsElement => summary.parentElement as HTMLDetailsElement;

const depthOf = (summary: HTMLElement): number => {
  let depth = 0;
  for (let place = summary.parentElement; place; place = place.parentElement) if (place.matches('details')) depth += 1;
  return depth;
};
