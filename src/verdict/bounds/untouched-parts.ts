import { readPointer } from '#record/patch/json-pointer';
import type { Assessment } from '#record/schema/assessment';
import type { BasisInputs } from '#schemes/eu-2023-1669/bases/index-inputs';
import type { PartBasis } from '#schemes/eu-2023-1669/bases/part-basis';
import type { Answered } from '../open/open-variable.ts';

/**
 * Of which parts does a basis say the same after some answers as before? Of those that leave nothing open: their ends hold whatever
 * completes the record. Of the others those that the answers say nothing about: a kit bears on the parts it replaces, a remote
 * action on its own part, the way of a fastener on those that may have needed it released, a tool on every one. Only for facts about these and, where a route is sought, not
 * about ways (among routes of equal steps their classes choose). Any other answer may change what was done, or which parts there
 * are, and leaves none untouched.
 */
export const untouchedParts = (
  { basis, parts }: Pick<BasisInputs, 'basis' | 'parts'>,
  answered: readonly Answered[],
  after: Assessment,
): ReadonlyMap<string, PartBasis> => {
  const ofParts = answered.filter(({ variable }) => variable.touches !== 'product');
  const written = ofParts.flatMap(({ answer }) => answer.patch.map(({ path }) => readPointer(path) ?? []));
  if (ofParts.some(({ variable }) => variable.kind !== 'fact') || !written.every((keys) => isOfOneItem(keys, basis)))
    return new Map();
  const isTouched = (part: PartBasis): boolean => written.some((keys) => isWrittenAbout(part, keys, after));
  return new Map([...parts].filter(([, part]) => isClosed(part) || !isTouched(part)));
};

const isOfOneItem = ([collection, , field]: readonly string[], basis: BasisInputs['basis']): boolean => {
  if (collection === 'fasteners') return field === 'ways' && basis !== 'best';
  if (collection === 'parts') return field === 'remoteNotification' || field === 'remoteAuthorisation';
  return collection === 'tools' || collection === 'spares';
};

const isWrittenAbout = (
  { part, released }: PartBasis,
  [collection, id = '']: readonly string[],
  { spares }: Assessment,
): boolean => {
  if (collection === 'parts') return id === part;
  if (collection === 'fasteners') return released?.has(id) ?? true;
  return collection !== 'spares' || (spares?.[id]?.replaces ?? []).includes(part);
};

const isClosed = ({ main, wide }: PartBasis): boolean =>
  [main, wide].every((end) =>
    [end.pairingSteps, end.steps, end.fastener, end.tool].every(({ state }) => state !== 'open'),
  );
