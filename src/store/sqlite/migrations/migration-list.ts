import { chain } from './0001-chain.ts';
import { rubrics } from './0002-rubrics.ts';
import { laboratories } from './0003-laboratories.ts';
import type { Migration } from './migration.ts';

/** Every step from an empty database to the present form, in order; the last version is this program's. */
export const migrationList: readonly Migration[] = [chain, rubrics, laboratories];
