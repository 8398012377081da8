import { useMemo, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import type { ToolsView } from '../engine/tools-client.ts';
import { useRoutesWithTools } from '../engine/use-routes-with-tools.ts';
import { LedgerTable } from '../look/ledger-table.tsx';
import { toolsWords } from './route-words.ts';
import styles from './routes-screen.module.css';

interface ToolsPanelProps {
  readonly document: Assessment;
  readonly revision: number;
}

/** With these tools only: which parts come free, and with which further tools the others would. */
export const ToolsPanel = ({ document, revision }: ToolsPanelProps) => {
  const every = useMemo(() => Object.keys(document.tools ?? {}), [document]);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const tools = useMemo(() => (left.size === 0 ? undefined : every.filter((tool) => !left.has(tool))), [every, left]);
  const view = useRoutesWithTools(document, revision, tools);
  const toggle = (tool: string) =>
    setLeft((before) => {
      const next = new Set(before);
      if (!next.delete(tool)) next.add(tool);
      return next;
    });
  const nameOf = (tool: string) => document.tools?.[tool]?.name ?? tool.replaceAll('-', ' ');
  return (
    <section aria-labelledby="tools-only">
      <h2 id="tools-only">With these tools only</h2>
      {every.length === 0 && <p>The record names no tools.</p>}
      <fieldset className={styles.tools}>
        <legend className="sr-only">Tools at hand</legend>
        {every.map((tool) => (
          <label key={tool}>
            <input type="checkbox" checked={!left.has(tool)} onChange={() => toggle(tool)} />
            {nameOf(tool)}
          </label>
        ))}
      </fieldset>
      {tools && <Answer view={view} document={document} nameOf={nameOf} />}
      {!tools && every.length > 0 && <p className={styles.soft}>Take a tool away to see what cannot be reached.</p>}
    </section>
  );
};

interface AnswerProps {
  readonly view: ToolsView;
  readonly document: Assessment;
  readonly nameOf: (tool: string) => string;
}

const Answer = ({ view: { answer, busy }, document, nameOf }: AnswerProps) => (
  <>
    <p className={styles.soft} role="status">
      {busy
        ? 'Being worked out …'
        : `With ${answer?.tools.length ?? 0} of the tools, revision ${answer?.revision ?? 0}.`}
    </p>
    {answer?.problem !== undefined && <p>{answer.problem}</p>}
    {answer?.parts && (
      <LedgerTable
        caption="Parts with these tools only"
        rows={answer.parts}
        rowKey={({ part }) => part}
        columns={[
          { name: 'part', cell: ({ part }) => document.parts?.[part]?.name ?? part.replaceAll('-', ' ') },
          { name: 'with these tools', cell: (part) => toolsWords(part, nameOf) },
        ]}
      />
    )}
  </>
);
