import { describe, expect, it } from 'vitest';
import { brokerChannel, SILENT_MILLIS } from '../../../firmware-host/herald/broker-channel.ts';
import type { Channel } from '../../../firmware-host/herald/channel.ts';
import { MAIL_TIMES, mailChannel } from '../../../firmware-host/herald/mail-channel.ts';
import { webhookChannel } from '../../../firmware-host/herald/webhook-channel.ts';
import {
  LOUD_BROKERS,
  LOUD_HOOKS,
  LOUD_INTERIM,
  LOUD_MAIL,
  startLoud,
  type Loud,
  type LoudPeer,
} from '../../support/loud-peers.ts';
import { MESSAGE, postMessage, words } from './message.ts';

/** What the kernel's buffers of both sides take on a loopback, at most some 10 MB (tcp_rmem and tcp_wmem), and more. */
const BUFFERED_BYTES_MAX = 32 * 2 ** 20;

interface Told {
  readonly says: string;
  readonly millis: number;
  readonly seen: ReturnType<LoudPeer['seen']>;
}

const told = async (
  loud: Loud,
  channelAt: (port: number) => Channel,
  message: typeof MESSAGE,
  withinMillis: number,
): Promise<Told> => {
  const peer = await startLoud(loud);
  const channel = channelAt(peer.port);
  try {
    const before = performance.now();
    const says = words(await channel.send(message, AbortSignal.timeout(withinMillis)));
    const millis = performance.now() - before;
    // What was left is not read on.
    await new Promise((done) => setTimeout(done, 200));
    return { says, millis, seen: peer.seen() };
  } finally {
    await channel.close();
    peer.close();
  }
};

const mailAt = (port: number): Channel =>
  mailChannel({
    farm: 'Hill',
    mail: { host: '127.0.0.1', port, security: 'none', from: 'shed@example.org' },
    password: null,
    times: MAIL_TIMES,
    hidden: (text) => text,
  });

const brokerAt = (port: number): Channel =>
  brokerChannel({
    farm: 'Hill',
    broker: { url: `mqtt://127.0.0.1:${port}`, topic: 'farms/hill' },
    password: null,
    wallMillis: () => 1_784_032_920_000,
    clientId: `test-${port}`,
    status: 'told',
    silentMillis: SILENT_MILLIS,
    hidden: (text) => text,
  });

const hookAt = (port: number): Channel =>
  webhookChannel({
    farm: 'Hill',
    name: 'shop',
    url: `http://127.0.0.1:${port}/`,
    key: null,
    wallMillis: () => 1_784_032_920_000,
    hidden: (text) => text,
  });

describe('a mail server that', () => {
  it.each(Object.entries(LOUD_MAIL))('%s is cut after 64 kB, within 2 s', async (_, loud) => {
    const { says, millis, seen } = await told(loud, mailAt, MESSAGE, 5000);
    expect(says).toMatch(/^later: the mail server/);
    expect(millis).toBeLessThan(2000);
    expect(seen.bytesMost).toBeLessThan(BUFFERED_BYTES_MAX);
  });
});

describe('a broker that', () => {
  it.each(Object.entries(LOUD_BROKERS))(
    '%s is cut after 4 kB a minute, and told as one that failed',
    async (_, loud) => {
      const { says, seen } = await told(loud, brokerAt, postMessage, 4000);
      expect(says).toMatch(/^later: /);
      // It is tried again after 5 s, not at once.
      expect([seen.connections, seen.left]).toEqual([1, 1]);
      expect(seen.bytesMost).toBeLessThan(BUFFERED_BYTES_MAX);
    },
  );
});

describe('a webhook that', () => {
  it.each(Object.entries(LOUD_HOOKS))('%s is left when its 1.5 s are over, or before', async (_, loud) => {
    const { millis, seen } = await told(loud, hookAt, postMessage, 1500);
    expect(millis).toBeLessThan(2500);
    // Node.js makes another connection at once, and says nothing on it.
    expect(seen.left).toBeGreaterThan(0);
    expect(seen.bytesMost).toBeLessThan(BUFFERED_BYTES_MAX);
  });

  it('is about to answer without end is read and forgotten until its 1.5 s are over', async () => {
    const { says, millis, seen } = await told(LOUD_INTERIM, hookAt, postMessage, 1500);
    expect(says).toBe('later: no answer in time');
    expect(millis).toBeLessThan(2500);
    expect(seen.left).toBeGreaterThan(0);
  });
});
