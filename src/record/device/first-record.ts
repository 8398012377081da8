import type { Part } from '../schema/assessment.ts';
import type { Device } from './device.ts';

/**
 * With what does the record of a part begin that only a log named? With the role its id was taken for: a record without one
 * would say that it has none, and a priority part would stop being one by a question being answered of it.
 */
export const firstRecord = (id: string, device: Device): Part => {
  const role = device.parts.get(id)?.role as Part['role'];
  return role === undefined ? {} : { role };
};
