import { createHmac } from 'node:crypto';
import { failed, sent, type Message, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import { networkWords, type Hidden } from './network-words.ts';

export interface WebhookAsked {
  readonly farm: string;
  readonly name: string;
  readonly url: string | null;
  readonly key: string | null;
  readonly wallMillis: () => number;
  readonly hidden: Hidden;
}

/** What a webhook is told, as JSON. */
export const webhookBody = (farm: string, { id, text, call, calledAt, purpose }: Message): string =>
  JSON.stringify({
    farm,
    purpose,
    id,
    kind: call?.kind ?? null,
    alarm: call?.alarm ?? null,
    priority: call?.priority ?? null,
    at: calledAt === null ? null : new Date(calledAt).toISOString(),
    minutesLeft: call?.minutesLeft ?? null,
    text,
  });

/**
 * HMAC (RFC 2104) with SHA-256 over `time.body`, in hexadecimal. The time is under the signature, so that whoever checks
 * it can refuse what is repeated later.
 */
export const signature = (key: string, unixSeconds: number, body: string): string =>
  createHmac('sha256', key).update(`${unixSeconds}.${body}`).digest('hex');

/** RFC 9110, 15: which answers mean that the same message may be taken later. */
const resultOf = (status: number): Sent => {
  if (status >= 200 && status < 300) return sent(`answered ${status}`);
  if (status >= 300 && status < 400) return failed(`answered ${status}: redirections are not followed`);
  return failed(`answered ${status}`);
};

const decoded = (part: string): string => {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
};

/** Name and password of `https://name:password@…` as RFC 7617, 2, has them, and the address without: with them it is refused. */
const loggedIn = (
  url: string,
): { readonly address: string; readonly headers: Readonly<Record<string, string>> } => {
  const address = new URL(url);
  const { username, password } = address;
  if (username === '' && password === '') return { address: address.href, headers: {} };
  address.username = '';
  address.password = '';
  const login = Buffer.from(`${decoded(username)}:${decoded(password)}`, 'utf8').toString('base64');
  return { address: address.href, headers: { authorization: `Basic ${login}` } };
};

/** Posts to one address. */
export const webhookChannel = ({ farm, name, url, key, wallMillis, hidden }: WebhookAsked): Channel => {
  const send = async (message: Message, signal: AbortSignal): Promise<Sent> => {
    if (url === null)
      return failed('no address: write url in the farm file, or set its RILLKEEPER_WEBHOOK_URL_…');
    // The address may be a secret: no error of a library may tell it.
    if (!URL.canParse(url)) return failed('its address is none: it begins with https://');
    const { address, headers } = loggedIn(url);
    const body = webhookBody(farm, message);
    const seconds = Math.floor(wallMillis() / 1000);
    try {
      const response = await fetch(address, {
        method: 'POST',
        body,
        signal,
        // An answer may not send an alarm elsewhere.
        redirect: 'manual',
        headers: {
          'content-type': 'application/json',
          'user-agent': 'rillkeeper',
          ...headers,
          'rillkeeper-time': String(seconds),
          ...(key === null ? {} : { 'rillkeeper-signature': `sha256=${signature(key, seconds, body)}` }),
        },
      });
      // What it says is not read: an endless answer would cost memory.
      await response.body?.cancel();
      const result = resultOf(response.status);
      return result.kind === 'sent' && key === null
        ? sent(`${result.says}; not signed, no key is set`)
        : result;
    } catch (error) {
      return failed(signal.aborted ? 'no answer in time' : networkWords(error, hidden));
    }
  };
  return {
    name: `webhook ${name}`,
    forms: ['post'],
    most: 2,
    send,
    check: null,
    close: () => Promise.resolve(),
  };
};
