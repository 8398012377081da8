import type { ReactNode } from 'react';

/** A key and what it does, as drawn on the bench: `G goal`. */
export const KeyHint = ({ name, children }: { readonly name: string; readonly children: ReactNode }) => (
  <>
    <kbd>{name}</kbd> {children}
  </>
);
