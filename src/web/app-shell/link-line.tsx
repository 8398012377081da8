import { counted } from '#quantity/counts';
import type { Snapshot } from '../ledger/snapshot.ts';
import styles from './link-line.module.css';

/** How the line to the ledger is, in words: what is on its disk, what still lies here. */
export const LinkLine = ({ snapshot }: { readonly snapshot: Snapshot }) => {
  const needs = (snapshot.unkept && snapshot.pending > 0) || snapshot.trouble !== undefined;
  return (
    <p className={needs ? `${styles.line} ${styles.needs}` : styles.line} role="status">
      {wordsOf(snapshot)}
    </p>
  );
};

const wordsOf = ({ pending, link, revision, unkept, trouble }: Snapshot): string => {
  const changes = counted(pending, 'change');
  if (unkept && pending > 0)
    return `${changes} not sent and not kept: this browser stores nothing. Do not close this page.`;
  if (trouble !== undefined) return `${changes} kept in this browser, not taken yet. ${trouble}`;
  if (link === 'offline')
    return pending === 0 ? 'Offline. Logging goes on.' : `Offline. ${changes} kept in this browser, to be sent.`;
  if (pending > 0) return `${changes} being sent`;
  return link === 'live' ? `All on disk, revision ${revision}` : `Revision ${revision}, looking for the server`;
};
