import { randomUUID } from 'node:crypto';
import { writeSync } from 'node:fs';
import { openLedger } from '#store/open-ledger';
import { AT, addEntry, changeOf, newAssessment } from '../store-fixtures.ts';

/** Writes to the ledger of the folder it is called with until it is killed; every acknowledgement is one line. */
const [, , folder = ''] = process.argv;
const { ledger } = await openLedger({ folder, receivedAt: () => AT });
const shelf = await ledger.shelf();
if (shelf.length === 0) await ledger.create(newAssessment());
let { revision } = await ledger.head('tarn-5');
for (;;) {
  const acknowledged = await ledger.append(changeOf(revision, [addEntry(`k${revision}`, revision)]));
  revision = acknowledged.revision;
  // Written at once and not through a stream, so that a line is out before the next change begins.
  writeSync(1, `${revision} ${acknowledged.hash} ${acknowledged.change} ${randomUUID()}\n`);
}
