/** Which roles does the law weigh? The priority parts of Regulation (EU) 2023/1669, Annex IV point 5, by the record's names. */
export const PRIORITY_ROLES = [
  'battery',
  'display',
  'back-cover',
  'front-camera',
  'rear-camera',
  'charging-port',
  'button',
  'microphone',
  'speaker',
  'hinge',
] as const;
