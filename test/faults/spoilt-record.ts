import { seedRecord } from './seed-record.ts';

/** A value to put at an id path of the seed record; `undefined` takes the field out. */
export type Spoil = readonly [path: string, value: unknown];

/** The seed record with values put at id paths. */
export const spoilt = (...changes: readonly Spoil[]): unknown => {
  const record = seedRecord();
  for (const [path, value] of changes) {
    const segments = path.split('/');
    const last = segments.pop() ?? '';
    let place: object = record;
    for (const segment of segments) place = Reflect.get(place, segment) as object;
    if (value === undefined) Reflect.deleteProperty(place, last);
    else Reflect.set(place, last, value);
  }
  return record;
};
