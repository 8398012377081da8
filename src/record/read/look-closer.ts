/** Thrown where a text leaves the plain manner that a fast reading knows, so that the full parser has to look at it. */
export class LookCloser extends Error {}
