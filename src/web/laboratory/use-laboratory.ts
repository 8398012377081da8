import { useSyncExternalStore } from 'react';
import { type CurrentLaboratory, currentLaboratory, subscribeLaboratory } from './current-laboratory.ts';

/** Whose readings hold where an assessment chooses none? The edition kept last; asked for once a page. */
export const useLaboratory = (): CurrentLaboratory => useSyncExternalStore(subscribeLaboratory, currentLaboratory);
