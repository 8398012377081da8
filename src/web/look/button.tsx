import type { ReactNode } from 'react';
import styles from './button.module.css';

/** What a button says and does. */
export interface ButtonProps {
  readonly children: ReactNode;
  readonly onPress?: () => void;
  readonly submit?: boolean;
  /** Drawn without a frame, for what is seldom needed. */
  readonly quiet?: boolean;
  /** The one thing to do on this screen. */
  readonly main?: boolean;
  readonly disabled?: boolean;
  /** For a toggle: is it down? */
  readonly pressed?: boolean;
  readonly label?: string;
}

/** A button of 44 px and more. */
export const Button = ({ children, onPress, submit, quiet, main, disabled, pressed, label }: ButtonProps) => (
  <button
    type={submit ? 'submit' : 'button'}
    className={[styles.button, quiet && styles.quiet, main && styles.main].filter(Boolean).join(' ')}
    onClick={onPress}
    disabled={disabled}
    aria-pressed={pressed}
    aria-label={label}
  >
    {children}
  </button>
);
