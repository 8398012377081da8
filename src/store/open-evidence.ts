import { join } from 'node:path';
import { DiskEvidence } from './evidence/disk-evidence.ts';
import type { EvidenceStore } from './evidence-store.ts';

/** The evidence files of a data folder. The folder is made with the first file. */
export const openEvidence = (dataFolder: string): EvidenceStore => new DiskEvidence(join(dataFolder, 'evidence'));
