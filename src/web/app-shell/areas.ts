/** A place within one assessment. */
export interface Area {
  readonly name: string;
  /** Address below `/a/<assessment>`, as the router knows it. */
  readonly to:
    | '/a/$assessment'
    | '/a/$assessment/bench'
    | '/a/$assessment/structure'
    | '/a/$assessment/routes'
    | '/a/$assessment/swaps'
    | '/a/$assessment/verdict';
}

/** The areas of an assessment that are there, in the order of the work. A screen that comes adds its line here. */
export const AREAS: readonly Area[] = [
  { name: 'Bench', to: '/a/$assessment/bench' },
  { name: 'Structure', to: '/a/$assessment/structure' },
  { name: 'Routes', to: '/a/$assessment/routes' },
  { name: 'Swaps', to: '/a/$assessment/swaps' },
  { name: 'Verdict', to: '/a/$assessment/verdict' },
  { name: 'Record', to: '/a/$assessment' },
];
