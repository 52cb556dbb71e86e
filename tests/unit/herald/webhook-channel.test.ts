import { createHmac } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { describe, expect, it } from 'vitest';
import { signature, webhookChannel } from '../../../firmware-host/herald/webhook-channel.ts';
import { postMessage, words } from './message.ts';

interface Got {
  readonly headers: IncomingMessage['headers'];
  readonly body: string;
}

const against = async <Result>(
  answer: (response: ServerResponse, request: IncomingMessage) => void,
  use: (url: string, got: readonly Got[]) => Promise<Result>,
): Promise<Result> => {
  const got: Got[] = [];
  const server = createServer((request, response) => {
    const pieces: Buffer[] = [];
    request.on('data', (piece: Buffer) => pieces.push(piece));
    request.on('end', () => {
      got.push({ headers: request.headers, body: Buffer.concat(pieces).toString() });
      answer(response, request);
    });
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  try {
    return await use(`http://127.0.0.1:${(server.address() as AddressInfo).port}/hook`, got);
  } finally {
    server.closeAllConnections();
    server.close();
  }
};

const channel = (url: string | null, key: string | null = 'key'): ReturnType<typeof webhookChannel> =>
  webhookChannel({
    farm: 'Hill',
    name: 'shop',
    url,
    key,
    wallMillis: () => 1_784_032_920_000,
    hidden: (text) => text,
  });
const soon = (millis = 2000): AbortSignal => AbortSignal.timeout(millis);

describe('a webhook', () => {
  it('whose address is none is told so without a letter of it: it may be a secret', async () => {
    const said = words(await channel('hooks.example.com/services/T0/THE-SECRET').send(postMessage, soon()));
    expect(said).toBe('later: its address is none: it begins with https://');
  });

  it('whose address has a login gets it as RFC 7617 has it, and the address without', async () => {
    await against(
      (response) => response.writeHead(204).end(),
      async (url, got) => {
        const withLogin = url.replace('//', '//grower:h%C3%BCnter%3A2@');
        expect(words(await channel(withLogin).send(postMessage, soon()))).toBe('sent: answered 204');
        const login = Buffer.from('grower:hünter:2', 'utf8').toString('base64');
        expect(got[0]!.headers.authorization).toBe(`Basic ${login}`);
      },
    );
  });

  it('is posted JSON with its time and an HMAC over time and body that the receiver can compute', async () => {
    await against(
      (response) => response.writeHead(204).end(),
      async (url, got) => {
        expect(words(await channel(url).send(postMessage, soon()))).toBe('sent: answered 204');
        const { headers, body } = got[0]!;
        expect(JSON.parse(body)).toMatchObject({
          farm: 'Hill',
          kind: 'raised',
          alarm: 'missed-flood',
          minutesLeft: 45,
        });
        expect(headers['rillkeeper-time']).toBe('1784032920');
        const own = createHmac('sha256', 'key').update(`1784032920.${body}`).digest('hex');
        expect(headers['rillkeeper-signature']).toBe(`sha256=${own}`);
      },
    );
  });

  it('signs as RFC 4231, test case 2, prints it', () => {
    // The case has no time before its data; the function puts one, so its data is split behind the first point.
    expect(createHmac('sha256', 'Jefe').update('what do ya want for nothing?').digest('hex')).toBe(
      '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843',
    );
    expect(signature('Jefe', 1, 'a')).toBe(createHmac('sha256', 'Jefe').update('1.a').digest('hex'));
  });

  it('without a key is posted all the same, unsigned, and says so', async () => {
    await against(
      (response) => response.writeHead(200).end('ok'),
      async (url, got) => {
        expect(words(await channel(url, null).send(postMessage, soon()))).toBe(
          'sent: answered 200; not signed, no key is set',
        );
        expect(got[0]!.headers['rillkeeper-signature']).toBeUndefined();
      },
    );
  });

  it.each([301, 302, 307, 308])('a %i is not followed, and counts as failed', async (status) => {
    await against(
      (response) => response.writeHead(status, { location: '/elsewhere' }).end(),
      async (url, got) => {
        expect(words(await channel(url).send(postMessage, soon()))).toMatch(/^later: .*not followed/);
        expect(got).toHaveLength(1);
      },
    );
  });

  it.each([400, 403, 404, 429, 500, 503])('a %i is failed, and tried later', async (status) => {
    await against(
      (response) => response.writeHead(status).end(),
      async (url) => {
        expect(words(await channel(url).send(postMessage, soon()))).toBe(`later: answered ${status}`);
      },
    );
  });

  it.each<[string, (response: ServerResponse) => void]>([
    ['never answers', () => undefined],
    ['cuts the connection', (response) => response.destroy()],
  ])('one that %s fails within its 300 ms', async (_, answer) => {
    await against(answer, async (url) => {
      const before = performance.now();
      expect((await channel(url).send(postMessage, soon(300))).kind).toBe('failed');
      expect(performance.now() - before).toBeLessThan(1500);
    });
  });

  it('one that answers without end is left after its head', async () => {
    await against(
      (response) => {
        response.writeHead(200);
        const more = setInterval(() => response.write('x'.repeat(10_000)), 1);
        response.on('close', () => {
          clearInterval(more);
        });
      },
      async (url) => {
        expect((await channel(url).send(postMessage, soon())).kind).toBe('sent');
      },
    );
  });

  it('a closed port and an address that nobody set are told in words', async () => {
    expect(words(await channel('http://127.0.0.1:9/x').send(postMessage, soon()))).toMatch(/^later: /);
    expect(words(await channel(null).send(postMessage, soon()))).toContain('RILLKEEPER_WEBHOOK_URL_');
  });
});
