import { useState } from 'react';
import { partOfJoint } from '#record/device/joints';
import type { Fastener } from '#record/schema/assessment';
import { Button } from '../look/button.tsx';
import { SelectField } from '../look/select-field.tsx';
import type { FastenerDescription } from './describe-fastener.ts';
import styles from './question-panel.module.css';
import { nameOf, type ReviewSource } from './review-source.ts';

interface DescribePanelProps {
  readonly source: ReviewSource;
  readonly fastener: string;
  readonly onDescribe: (said: FastenerDescription) => void;
}

/** A fastener that only a log names, or whose ends nobody said: what it is and what it holds together, before anything else is asked of it. */
export const DescribePanel = ({ source, fastener, onDescribe }: DescribePanelProps) => {
  const { kind: logged, record } = source.device.fasteners.get(fastener) ?? {};
  const [kind, setKind] = useState(KINDS.find(({ value }) => value === logged)?.value ?? 'other');
  const ends = endsOf(source);
  const [one, setOne] = useState(partOfJoint(fastener) ?? ends[1]?.value ?? 'chassis');
  const [other, setOther] = useState('chassis');
  return (
    <>
      <p className={styles.soft}>
        {record ? 'It was named at the bench, and nobody said what it holds.' : 'Only the log names it.'} What it is and
        what it holds together comes first: until then it may hold anything.
      </p>
      <SelectField label="Kind" value={kind} options={KINDS} onChange={setKind} />
      <SelectField label="Holds" value={one} options={ends} onChange={setOne} />
      <SelectField label="To" value={other} options={ends} onChange={setOther} />
      <Button main disabled={one === other} onPress={() => onDescribe({ kind, between: [one, other] })}>
        Write it
      </Button>
    </>
  );
};

const endsOf = (source: ReviewSource): readonly { readonly value: string; readonly label: string }[] => [
  { value: 'chassis', label: 'the chassis' },
  ...[...source.device.parts.keys()].map((part) => ({ value: part, label: nameOf(source, part) })),
];

const KIND_WORDS: Readonly<Record<Fastener['kind'], string>> = {
  screw: 'screw',
  nut: 'nut',
  pin: 'pin',
  clip: 'clip',
  hook: 'hook',
  adhesive: 'adhesive',
  'stretch-release-strip': 'stretch-release strip',
  tape: 'tape',
  gasket: 'gasket',
  connector: 'connector',
  solder: 'solder',
  magnet: 'magnet',
  'press-fit': 'press fit',
  'thermal-pad': 'thermal pad',
  rivet: 'rivet',
  weld: 'weld',
  other: 'something else',
};

const KINDS = (Object.keys(KIND_WORDS) as Fastener['kind'][]).map((value) => ({ value, label: KIND_WORDS[value] }));
