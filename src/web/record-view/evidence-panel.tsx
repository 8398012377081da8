import { type FormEvent, useId, useRef, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { sendEvidence } from '../ledger/send-evidence.ts';
import { Button } from '../look/button.tsx';
import { LedgerTable } from '../look/ledger-table.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { TextField } from '../look/text-field.tsx';
import styles from './evidence-panel.module.css';
import { type EvidenceKind, evidenceOf, evidencePatch, kindOfType } from './evidence-patch.ts';

/** The evidence on record, and the way to put a file there. */
export const EvidencePanel = ({ open, document }: { readonly open: OpenAssessment; readonly document: Assessment }) => {
  const rows = Object.entries(document.evidence ?? {});
  return (
    <section className={styles.panel} aria-labelledby="evidence">
      <h2 id="evidence">Evidence</h2>
      {rows.length === 0 ? (
        <p>No file, order or measurement is on record yet.</p>
      ) : (
        <LedgerTable caption="Evidence" columns={COLUMNS} rows={rows} rowKey={([key]) => key} />
      )}
      <TakeInForm open={open} />
    </section>
  );
};

type Row = readonly [key: string, evidence: NonNullable<Assessment['evidence']>[string]];

const COLUMNS = [
  { name: 'evidence', cell: ([key, { file }]: Row) => <NameText text={file ?? key} /> },
  { name: 'kind', cell: ([, { kind }]: Row) => kind },
  { name: 'shows', cell: ([, { says }]: Row) => <NameText text={says ?? ''} />, wideOnly: true },
  { name: 'SHA-256', cell: ([key, item]: Row) => <FileLink name={item.file ?? key} sha256={item.sha256} /> },
];

const NameText = ({ text }: { readonly text: string }) => (
  <bdi className={styles.name} dir="auto">
    {text}
  </bdi>
);

/** The server hands files out to be saved and never to be shown: what is in them is not ours. */
const FileLink = ({ name, sha256 }: { readonly name: string; readonly sha256: string | undefined }) =>
  sha256 === undefined ? (
    'no file'
  ) : (
    <a className={styles.hash} href={`/api/evidence/${sha256}`} download={name} title={sha256}>
      {sha256.slice(0, 8)}
    </a>
  );

const TakeInForm = ({ open }: { readonly open: OpenAssessment }) => {
  const { file, kind, says, choose, setKind, setSays, said, busy, submit, field } = useTakingIn(open);
  const name = useId();
  return (
    <form className={styles.form} onSubmit={submit}>
      <div className={styles.file}>
        <label htmlFor={name}>File</label>
        <input
          id={name}
          ref={field}
          type="file"
          disabled={busy}
          onChange={(event) => choose(event.target.files?.[0])}
        />
      </div>
      <SelectField label="Kind" value={kind} options={KINDS} onChange={setKind} />
      <TextField label="What it shows" value={says} onChange={setSays} />
      <Button submit disabled={busy || file === undefined}>
        {busy ? 'Being taken in …' : 'Take it in'}
      </Button>
      {said !== undefined && (
        <div className={styles.said}>
          <Notice needs={said.needs}>
            <bdi>{said.words}</bdi>
          </Notice>
        </div>
      )}
    </form>
  );
};

const KINDS = (['photo', 'video', 'document', 'order', 'measurement', 'note', 'screenshot'] as const).map((kind) => ({
  value: kind,
  label: kind,
}));

/** What is said of the last file. */
interface Said {
  readonly words: string;
  readonly needs: boolean;
}

const useTakingIn = (open: OpenAssessment) => {
  const [file, setFile] = useState<File>();
  const [kind, setKind] = useState<EvidenceKind>('photo');
  const [says, setSays] = useState('');
  const [said, setSaid] = useState<Said>();
  const [busy, setBusy] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const choose = (chosen: File | undefined) => {
    setFile(chosen);
    if (chosen) setKind(kindOfType(chosen.type));
    setSaid(undefined);
  };
  const takeIn = async (chosen: File) => {
    setBusy(true);
    setSaid({ words: `Being taken in: ${chosen.name}, ${megabytes(chosen.size)}.`, needs: false });
    try {
      setSaid(await putOnRecord(open, chosen, { kind, says }));
      setFile(undefined);
      setSays('');
      if (field.current) field.current.value = '';
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      setSaid({ words: `${chosen.name} was not taken in, and nothing was put on record. ${why}`, needs: true });
    } finally {
      setBusy(false);
    }
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (file && !busy) void takeIn(file);
  };
  return { file, kind, says, choose, setKind, setSays, said, busy, submit, field };
};

/** The file first, then the record: what stands on record is on the server's disk. */
const putOnRecord = async (
  open: OpenAssessment,
  file: File,
  about: { readonly kind: EvidenceKind; readonly says: string },
): Promise<Said> => {
  const { sha256, bytes } = await sendEvidence(file);
  const { document } = open.snapshot();
  const known = evidenceOf(document, sha256);
  if (known !== undefined) return { words: `These bytes are on record already, as ${known}.`, needs: false };
  const { key, patch } = evidencePatch(document, { ...about, sha256, name: file.name });
  await open.change(patch);
  return { words: `${file.name} is on record as ${key}, ${megabytes(bytes)}.`, needs: false };
};

const megabytes = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
