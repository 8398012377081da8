import { hc } from 'hono/client';
import type { Api } from '#server/app';
import { answered } from '../ledger/ledger-client.ts';

const api = hc<Api>(typeof location === 'undefined' ? 'http://127.0.0.1' : location.origin).api;

/** What does the edition of laboratories' readings say that was kept last? Undefined before any. Throws `NotAnswered`. */
export const readLastEdition = async (): Promise<string | undefined> => {
  const list = await answered(api.laboratories.$get());
  const [last] = (await list.json()).laboratories;
  if (!last) return undefined;
  const param = { laboratory: last.id, edition: String(last.edition) };
  const response = await answered(api.laboratories[':laboratory'][':edition'].$get({ param }));
  return (await response.json()).text;
};

/** Keeps a new edition for good. Throws `NotAnswered` with the server's words where it is refused. */
export const keepLaboratory = async (json: {
  readonly text: string;
  readonly author: string;
  readonly at: string;
}): Promise<void> => {
  await answered(api.laboratories.$post({ json }));
};
