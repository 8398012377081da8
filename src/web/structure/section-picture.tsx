import { type KeyboardEvent, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { DepthZone } from '#report/depth/depth-model';
import { fixed, isolated } from '#report/depth/svg-text';
import { type Area, type SectionGeometry, type SectionPart, sectionGeometry } from './section-geometry.ts';
import styles from './section-picture.module.css';

interface SectionPictureProps {
  readonly zones: readonly DepthZone[];
  readonly chosen: string | undefined;
  /** What the answer being given names: drawn broken. */
  readonly named: ReadonlySet<string>;
  readonly onChoose: (part: string) => void;
}

const HATCH = 'structure-hatch';
const optionKey = (part: string): string => `section-${part}`;

/** The depth section. One stop for the keyboard: arrows go from part to part, Enter chooses. */
export const SectionPicture = ({ zones, chosen, named, onChoose }: SectionPictureProps) => {
  const { box, width } = useWidth();
  const geometry = useMemo(() => (width === undefined ? undefined : sectionGeometry(zones, width)), [zones, width]);
  return (
    <div ref={box} className={styles.frame}>
      {geometry && <Picture geometry={geometry} chosen={chosen} named={named} onChoose={onChoose} />}
    </div>
  );
};

/** How wide is the place for the picture [px]? Undefined until it is there. */
const useWidth = () => {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState<number>();
  useLayoutEffect(() => {
    const observer = new ResizeObserver(([entry]) => entry && setWidth(Math.floor(entry.contentRect.width)));
    if (box.current) observer.observe(box.current);
    return () => observer.disconnect();
  }, []);
  return { box, width };
};

const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

type PictureProps = Omit<SectionPictureProps, 'zones'> & { readonly geometry: SectionGeometry };

const Picture = ({ geometry, chosen, named, onChoose }: PictureProps) => {
  const { width, height, parts } = geometry;
  const [active, setActive] = useState<string>();
  const order = useMemo(() => [...parts].sort((a, b) => a.slab.y - b.slab.y || a.slab.x - b.slab.x), [parts]);
  const at = order.find(({ part }) => part.id === (active ?? chosen)) ?? order[0];
  const press = (event: KeyboardEvent) => {
    const step = STEPS[event.key];
    if (step !== undefined && at) {
      const next = order.at((order.indexOf(at) + step) % order.length)?.part.id;
      setActive(next);
      // In the middle, so that the question at the foot of a narrow screen hides nothing of it.
      if (next !== undefined) document.getElementById(optionKey(next))?.scrollIntoView({ block: 'center' });
    } else if ((event.key === 'Enter' || event.key === ' ') && at) onChoose(at.part.id);
    else return;
    event.preventDefault();
  };
  return (
    <div
      className={styles.parts}
      role="listbox"
      tabIndex={0}
      aria-label="Depth section: parts by depth. Arrows go from part to part, Enter chooses."
      aria-activedescendant={at && optionKey(at.part.id)}
      onKeyDown={press}
    >
      <svg
        className={styles.section}
        role="presentation"
        viewBox={`0 0 ${fixed(width)} ${fixed(height)}`}
        width={fixed(width)}
        height={fixed(height)}
      >
        <Ground geometry={geometry} />
        {parts.map((one) => (
          <PartShape
            key={one.part.id}
            shape={one}
            isActive={one === at}
            isChosen={one.part.id === chosen}
            isNamed={named.has(one.part.id)}
            onChoose={onChoose}
          />
        ))}
      </svg>
    </div>
  );
};

/** What stands behind the parts: faces, bands of the law, the core, lines to what must be off first. */
const Ground = ({ geometry: { lines, words, marks, parts } }: { readonly geometry: SectionGeometry }) => (
  <g>
    <defs>
      <pattern id={HATCH} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line className={styles.hatch} x1="0" y1="0" x2="0" y2="6" />
      </pattern>
    </defs>
    {lines.map(({ kind, from: [x1, y1], to: [x2, y2] }) => (
      <line key={`${kind} ${x1} ${y1} ${x2} ${y2}`} className={styles[kind]} x1={x1} y1={y1} x2={x2} y2={y2} />
    ))}
    {words.map(({ text, at: [x, y] }) => (
      <text key={`${text} ${x} ${y}`} className={styles.word} x={x} y={y}>
        {isolated(text)}
      </text>
    ))}
    {marks.map(({ text, at: [x, y], wedge }) => (
      <g key={`${text} ${x} ${y}`}>
        <path className={styles.riser} d={wedge} />
        <text className={styles.word} x={x} y={y}>
          {isolated(text)}
        </text>
      </g>
    ))}
    {parts.map(({ part, riser }) => riser && <path key={part.id} className={styles.riser} d={riser} />)}
  </g>
);

interface PartShapeProps {
  readonly shape: SectionPart;
  readonly isActive: boolean;
  readonly isChosen: boolean;
  readonly isNamed: boolean;
  readonly onChoose: (part: string) => void;
}

const PartShape = ({ shape, isActive, isChosen, isNamed, onChoose }: PartShapeProps) => {
  const { part, label, figure, slab, open } = shape;
  const kinds = [styles.part, part.heavy && styles.heavy, isNamed && styles.named, isActive && styles.active];
  return (
    <g
      id={optionKey(part.id)}
      role="option"
      tabIndex={-1}
      aria-selected={isChosen}
      aria-label={`${saidOf(shape)}${isNamed ? ', named in the answer' : ''}`}
      className={kinds.filter(Boolean).join(' ')}
      onClick={() => onChoose(part.id)}
    >
      <title>{part.name}</title>
      {open && <rect fill={`url(#${HATCH})`} {...rounded(open.area)} />}
      {open &&
        (open.break ? (
          <path className={styles.edge} d={open.break} />
        ) : (
          <rect className={styles.edge} {...rounded(open.area)} />
        ))}
      <rect className={styles.slab} {...rounded(slab)} />
      <text x={fixed(slab.x + 5)} y={fixed(slab.y + slab.height - 4)}>
        {isolated(label)}
        <tspan className={styles.figure} dx="6">
          {figure}
        </tspan>
      </text>
    </g>
  );
};

/** What the picture says of a part, as it is written there; a name that was cut follows in full. */
const saidOf = ({ part, label, figure }: SectionPart): string => {
  const cut = label === part.name ? '' : `, ${part.name}`;
  const also = part.alsoFrom === undefined ? '' : `, also reached from ${part.alsoFrom.join(' and ')}`;
  return `${label}, ${figure} ${figure === '1' ? 'step' : 'steps'}${cut}${also}`;
};

const rounded = ({ x, y, width, height }: Area) => ({
  x: fixed(x),
  y: fixed(y),
  width: fixed(width),
  height: fixed(height),
});
