import { deviceOf } from '#record/device/device';
import { experienceOf } from '#record/log/experience';
import { trialsOf } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import type { RouteSource } from './from-record.ts';

/** What are the planning problems of a record built from? Cost: entries times what is off. */
export const routeSource = (assessment: Assessment): RouteSource => {
  const device = deviceOf(assessment);
  return {
    assessment,
    device,
    trials: trialsOf(assessment, device),
    experience: experienceOf(assessment, device),
  };
};
