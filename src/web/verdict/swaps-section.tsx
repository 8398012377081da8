import { Link, useParams } from '@tanstack/react-router';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import styles from './verdict-screen.module.css';

/** How many parts were swapped and decided, and the way to what their runs say. */
export const SwapsSection = ({ swaps }: { readonly swaps: SwapsVerdict }) => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const decided = swaps.parts.filter((part) => part.decided !== undefined).length;
  return (
    <section aria-labelledby="swaps">
      <h2 id="swaps">Swaps</h2>
      <p className={styles.soft}>
        {swaps.parts.length === 1 ? 'One part was swapped' : `${swaps.parts.length} parts were swapped`}; of {decided}{' '}
        the cause is decided. What the software makes of each, and the runs that say so:{' '}
        <Link className={styles.way} to="/a/$assessment/swaps/findings" params={{ assessment }}>
          what the runs say
        </Link>
      </p>
    </section>
  );
};
