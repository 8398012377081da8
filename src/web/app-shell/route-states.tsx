import { Link, useRouter } from '@tanstack/react-router';
import { Button } from '../look/button.tsx';
import { StatePage } from '../look/state-page.tsx';

/** What stands on a screen while it is being read. */
export const Loading = () => (
  <StatePage title="Reading …" busy>
    <title>Unfasten</title>
  </StatePage>
);

/** What stands where there is no screen. */
export const NotFound = () => (
  <StatePage title="There is no such page">
    <title>No such page · Unfasten</title>
    <p>The address names nothing that is here.</p>
    <Link to="/">To the shelf</Link>
  </StatePage>
);

/** What stands where a screen could not be read or drawn: in words, with the way on. */
export const RouteFailure = ({ error }: { readonly error: unknown }) => {
  const router = useRouter();
  return (
    <StatePage title="This could not be shown">
      <title>Not shown · Unfasten</title>
      <p>{error instanceof Error ? error.message : String(error)}</p>
      <Button main onPress={() => void router.invalidate()}>
        Try again
      </Button>
      <Link to="/">To the shelf</Link>
    </StatePage>
  );
};
