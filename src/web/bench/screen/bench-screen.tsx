import { useParams } from '@tanstack/react-router';
import { useCallback, useState } from 'react';
import { useAssessment } from '../../ledger/use-assessment.ts';
import { BenchSession } from './bench-session.tsx';
import { SessionChoice } from './session-choice.tsx';

/** The bench: a session begun or gone on with. */
export const BenchScreen = () => {
  const { assessment } = useParams({ from: '/a/$assessment' });
  const { open, snapshot } = useAssessment(assessment);
  const [session, setSession] = useState<string>();
  const leave = useCallback(() => setSession(undefined), []);
  if (session !== undefined && snapshot.document.sessions?.[session])
    return <BenchSession key={session} open={open} document={snapshot.document} session={session} onLeave={leave} />;
  return <SessionChoice open={open} document={snapshot.document} onChoose={setSession} />;
};
