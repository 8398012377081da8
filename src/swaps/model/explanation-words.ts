import type { Explanation } from './explanation.ts';

/** How is an explanation called, and what does it say? Screen, report and command line use these words. */
export interface ExplanationWords {
  readonly name: string;
  /** A sentence of the part, without its name. */
  readonly says: string;
}

/** How is each explanation called? */
export const EXPLANATION_WORDS: Readonly<Record<Explanation, ExplanationWords>> = {
  accepted: { name: 'accepted', says: 'Foreign pieces are taken like the own one.' },
  'bad-donor': { name: 'bad donor', says: 'One piece has a fault and takes it wherever it is fitted.' },
  'handling-damage': {
    name: 'handling damage',
    says: 'A specimen was damaged in handling; the fault stays with it, whatever is fitted.',
  },
  'missing-calibration': {
    name: 'missing calibration',
    says: 'Foreign pieces work by degree until calibrated, which needs no authorisation.',
  },
  'revision-mismatch': { name: 'revision mismatch', says: 'Pieces of another revision do not fit this host.' },
  'firmware-bug': {
    name: 'firmware bug, mended',
    says: 'A bug of an earlier firmware; a version at hand no longer has it.',
  },
  'unfixed-bug': {
    name: 'bug, not mended',
    says: 'A bug of every firmware at hand rejects foreign pieces, authorised or not.',
  },
  'gauge-or-cache': {
    name: 'gauge or cache',
    says: 'A gauge or cache still holds the state of the other piece; it clears after the soak and reset.',
  },
  'pairing-reversible': {
    name: 'pairing, reversible',
    says: 'The software refuses foreign pieces until authorised; the own part is taken again.',
  },
  'pairing-latching': {
    name: 'pairing, latching',
    says: 'The software refuses foreign pieces and afterwards the own part too, until authorised.',
  },
  'donor-home-locked': {
    name: 'blocked donor',
    says: 'Pieces are refused whose home unit is locked to an account or reported lost.',
  },
  'host-not-ready': {
    name: 'host not ready',
    says: 'The host was open, not grounded or nearly empty at the test.',
  },
  'test-error': { name: 'test error', says: 'One run was misread; nothing is the matter.' },
};
