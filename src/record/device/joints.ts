import type { Assessment, Fastener } from '../schema/assessment.ts';

/** Which described fasteners have an end at a part? By part id. */
export type Joints = ReadonlyMap<string, readonly (readonly [string, Fastener])[]>;

/** What does the undescribed joint of a part that was pried or pulled off by itself go by? */
const jointOf = (part: string): string => `${part}.joint`;

/** Which part does the undescribed joint of this name belong to? Undefined for any other name. */
export const partOfJoint = (id: string): string | undefined => /^(.+)\.joint$/.exec(id)?.[1];

/** Which described fasteners has each part? Absent ones left out. Linear. */
export const jointsOf = (assessment: Assessment): Joints => {
  const joints = new Map<string, (readonly [string, Fastener])[]>();
  for (const [id, fastener] of Object.entries(assessment.fasteners ?? {})) {
    if (fastener.absent === true) continue;
    for (const end of new Set(fastener.between)) {
      const list = joints.get(end);
      if (list) list.push([id, fastener]);
      else joints.set(end, [[id, fastener]]);
    }
  }
  return joints;
};

/** Which fasteners of a part does an action on the part itself release? The described ones with a way that has this action; else its undescribed joint. */
export const jointsReleased = (joints: Joints, part: string, action: string): readonly string[] => {
  const described = (joints.get(part) ?? [])
    .filter(([, fastener]) =>
      Object.values(fastener.ways ?? {}).some((way) => way.actions.some((step) => step.do === action)),
    )
    .map(([id]) => id);
  return described.length > 0 ? described : [jointOf(part)];
};
