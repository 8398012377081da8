import { hc } from 'hono/client';
import type { Api } from '#server/app';
import { answered } from '../ledger/ledger-client.ts';

const api = hc<Api>(typeof location === 'undefined' ? 'http://127.0.0.1' : location.origin).api;

/** One kept edition in the list, as the server's types have it. */
export type RubricItem = Awaited<ReturnType<typeof readEditions>>[number];

/** Which editions of house rubrics are kept? The one kept last first. Throws `NotAnswered`. */
export const readEditions = async () => {
  const response = await answered(api.rubrics.$get());
  return (await response.json()).rubrics;
};

/** What does a kept edition say? Throws `NotAnswered`. */
export const readEdition = async ({ id, edition }: Pick<RubricItem, 'id' | 'edition'>): Promise<string> => {
  const param = { rubric: id, edition: String(edition) };
  const response = await answered(api.rubrics[':rubric'][':edition'].$get({ param }));
  return (await response.json()).text;
};

/** Keeps a new edition for good. Throws `NotAnswered` with the server's words where it is refused. */
export const keepEdition = async (json: { readonly text: string; readonly author: string; readonly at: string }) => {
  const response = await answered(api.rubrics.$post({ json }));
  return await response.json();
};
