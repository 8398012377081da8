import { create } from 'qrcode';
import { useEffect, useRef } from 'react';
import { wallTime } from '../../ledger/change-key.ts';
import { CARD_PERIOD, cardText } from '../clock/clock-card.ts';
import { clockFace } from '../clock/session-clock.ts';
import styles from './bench-session.module.css';
import type { Bench } from './use-bench.ts';

/** The clock card: hold it into every camera once, so that pictures and log can be brought together later. */
export const ClockCardSheet = ({
  bench: { now },
  session,
  onClose,
}: {
  readonly bench: Bench;
  readonly session: string;
  readonly onClose: () => void;
}) => {
  const canvas = useRef<HTMLCanvasElement>(null);
  const face = useRef<HTMLParagraphElement>(null);
  const close = useRef<HTMLButtonElement>(null);
  const latest = useRef(now);
  latest.current = now;
  useEffect(() => {
    close.current?.focus();
    let sequence = 0;
    const timer = setInterval(() => {
      const seconds = latest.current();
      const milliseconds = Math.round(seconds * 1000);
      if (canvas.current) draw(canvas.current, cardText({ session, milliseconds, wall: wallTime(), sequence }));
      if (face.current) face.current.textContent = `${clockFace(seconds)}.${Math.floor((seconds % 1) * 10)}`;
      sequence += 1;
    }, CARD_PERIOD);
    return () => clearInterval(timer);
  }, [session]);
  return (
    <div className={styles.card} role="dialog" aria-modal="true" aria-label="Clock card">
      <canvas ref={canvas} role="img" aria-label="Code with the time, the session and a checksum" />
      <p ref={face} />
      <button ref={close} type="button" onClick={onClose}>
        Put the card away
      </button>
    </div>
  );
};

/** Dark modules on white whatever the theme: cameras read no other. Four light modules around (ISO/IEC 18004, quiet zone). */
const draw = (canvas: HTMLCanvasElement, text: string): void => {
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  const scale = 12;
  const quiet = 4;
  const size = (modules.size + quiet * 2) * scale;
  if (canvas.width !== size) {
    canvas.width = size;
    canvas.height = size;
  }
  const pen = canvas.getContext('2d');
  if (!pen) return;
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, size, size);
  pen.fillStyle = '#000';
  for (let row = 0; row < modules.size; row++)
    for (let column = 0; column < modules.size; column++)
      if (modules.get(row, column)) pen.fillRect((column + quiet) * scale, (row + quiet) * scale, scale, scale);
};
