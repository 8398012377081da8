import { useLoaderData, useNavigate } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { keepAuthor, keptAuthor } from '../ledger/author.ts';
import { newChangeKey, wallTime } from '../ledger/change-key.ts';
import { beginAssessment, readHead, type ShelfItem } from '../ledger/ledger-client.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { TextField } from '../look/text-field.tsx';
import { assessmentKey } from './assessment-key.ts';
import { beginFromNothing, beginFromPredecessor, beginFromStructure, type NewProduct } from './begin-assessment.ts';
import { CATEGORY_WORDS } from './category-words.ts';
import styles from './new-assessment-screen.module.css';

type Category = keyof typeof CATEGORY_WORDS | '';
type Start = 'nothing' | 'predecessor' | 'structure';

/** What has been filled in. */
interface Form {
  readonly name: string;
  readonly maker: string;
  readonly category: Category;
  readonly start: Start;
  readonly source: string;
  readonly author: string;
}

/** Begins an assessment: from nothing, from the predecessor's structure, or from that of another record. */
export const NewAssessmentScreen = () => {
  const { items } = useLoaderData({ from: '/new' });
  const { form, set, fault, problem, isBusy, submit } = useNewAssessment(items);
  return (
    <>
      <title>New assessment · Unfasten</title>
      <h1>New assessment</h1>
      <form className={styles.form} onSubmit={submit} noValidate>
        <ProductFields form={form} set={set} fault={fault} />
        {items.length > 0 && <StartFields form={form} items={items} set={set} />}
        <div className={styles.hand}>
          <TextField
            label="At whose hand"
            value={form.author}
            onChange={(author) => set({ author })}
            hint="Stands with every change made in this browser"
            most={200}
          />
        </div>
        <div className={styles.foot}>
          {problem !== undefined && <Notice needs>{problem}</Notice>}
          <Button submit main disabled={isBusy}>
            {isBusy ? 'Being begun …' : 'Begin'}
          </Button>
        </div>
      </form>
    </>
  );
};

interface FieldsProps {
  readonly form: Form;
  readonly set: (some: Partial<Form>) => void;
}

const ProductFields = ({ form, set, fault }: FieldsProps & { readonly fault: string | undefined }) => (
  <div className={styles.column}>
    <TextField
      label="Product"
      value={form.name}
      onChange={(name) => set({ name })}
      fault={fault}
      most={500}
      autoFocus
    />
    <TextField label="Maker" value={form.maker} onChange={(maker) => set({ maker })} hint="May be left open" />
    <SelectField label="Kind" value={form.category} options={CATEGORIES} onChange={(category) => set({ category })} />
  </div>
);

const StartFields = ({ form, items, set }: FieldsProps & { readonly items: readonly ShelfItem[] }) => (
  <div className={styles.column}>
    <fieldset className={styles.start}>
      <legend>Begins from</legend>
      {STARTS.map(({ value, label, hint }) => (
        <label key={value}>
          <input type="radio" name="start" checked={form.start === value} onChange={() => set({ start: value })} />
          <span>
            {label}
            <small>{hint}</small>
          </span>
        </label>
      ))}
    </fieldset>
    {form.start !== 'nothing' && (
      <SelectField
        label={form.start === 'predecessor' ? 'Predecessor' : 'Structure of'}
        value={form.source}
        options={items.map(({ assessment, product, title }) => ({
          value: assessment,
          label: title === undefined ? product : `${product}, ${title}`,
        }))}
        onChange={(source) => set({ source })}
      />
    )}
  </div>
);

const useNewAssessment = (items: readonly ShelfItem[]) => {
  const navigate = useNavigate();
  const [form, setForm] = useState<Form>(() => emptyForm(items));
  const [fault, setFault] = useState<string>();
  const [problem, setProblem] = useState<string>();
  const [isBusy, setBusy] = useState(false);
  const begin = async () => {
    setBusy(true);
    try {
      const assessment = assessmentKey(form.name, new Set(items.map((item) => item.assessment)));
      keepAuthor(form.author);
      const document = await documentOf(form, items);
      await beginAssessment({ change: newChangeKey(), assessment, document, author: keptAuthor(), at: wallTime() });
      await navigate({ to: '/a/$assessment', params: { assessment } });
    } catch (error) {
      setProblem(error instanceof Error ? error.message : String(error));
    } finally {
      setBusy(false);
    }
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const isNamed = form.name.trim() !== '';
    setFault(isNamed ? undefined : 'The product needs a name.');
    setProblem(undefined);
    if (isNamed) void begin();
  };
  return { form, set: (some: Partial<Form>) => setForm({ ...form, ...some }), fault, problem, isBusy, submit };
};

const documentOf = async (form: Form, items: readonly ShelfItem[]): Promise<Assessment> => {
  const product: NewProduct = {
    name: form.name,
    maker: form.maker,
    ...(form.category === '' ? {} : { category: form.category }),
  };
  if (form.start === 'nothing') return beginFromNothing(product);
  const { document } = await readHead(form.source);
  if (form.start === 'structure') return beginFromStructure(product, document);
  const predecessor = items.find(({ assessment }) => assessment === form.source)?.assessment ?? form.source;
  return beginFromPredecessor(product, document, predecessor);
};

const emptyForm = (items: readonly ShelfItem[]): Form => {
  const author = keptAuthor();
  return {
    name: '',
    maker: '',
    category: '',
    start: 'nothing',
    source: items[0]?.assessment ?? '',
    author: author === 'not named' ? '' : author,
  };
};

const CATEGORIES: readonly { readonly value: Category; readonly label: string }[] = [
  { value: '', label: 'not said yet' },
  ...Object.entries(CATEGORY_WORDS).map(([value, label]) => ({ value: value as Category, label })),
];

const STARTS: readonly { readonly value: Start; readonly label: string; readonly hint: string }[] = [
  { value: 'nothing', label: 'Nothing', hint: 'Parts and fasteners appear as they are logged.' },
  {
    value: 'predecessor',
    label: 'Its predecessor',
    hint: 'Parts, fasteners and their ways as a guess; everything established is back to not known.',
  },
  { value: 'structure', label: 'Another structure', hint: 'The same, from a product that is not its predecessor.' },
];
