import { createHmac } from 'node:crypto';
import { failed, sent, type Message, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import { networkWords } from './network-words.ts';

export interface WebhookAsked {
  readonly farm: string;
  readonly name: string;
  readonly url: string | null;
  readonly key: string | null;
  readonly wallMillis: () => number;
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

/** Posts to one address. */
export const webhookChannel = ({ farm, name, url, key, wallMillis }: WebhookAsked): Channel => {
  const send = async (message: Message, signal: AbortSignal): Promise<Sent> => {
    if (url === null)
      return failed('no address: write url in the farm file, or set its RILLKEEPER_WEBHOOK_URL_…');
    // The address may be a secret: no error of a library may tell it.
    if (!URL.canParse(url)) return failed('its address is none: it begins with https://');
    const body = webhookBody(farm, message);
    const seconds = Math.floor(wallMillis() / 1000);
    try {
      const response = await fetch(url, {
        method: 'POST',
        body,
        signal,
        // An answer may not send an alarm elsewhere.
        redirect: 'manual',
        headers: {
          'content-type': 'application/json',
          'user-agent': 'rillkeeper',
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
      return failed(signal.aborted ? 'no answer in time' : networkWords(error));
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
