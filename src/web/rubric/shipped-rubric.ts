import text from '../../../rubrics/quayside-general.yaml?raw';

/** The house rubric that ships with the application, as its file reads. */
export const SHIPPED_RUBRIC: string = text;
