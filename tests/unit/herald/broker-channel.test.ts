import type { ChildProcess } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import {
  brokerChannel,
  SILENT_MILLIS,
  type BrokerAsked,
  type BrokerChannel,
} from '../../../firmware-host/herald/broker-channel.ts';
import { ended, freePort, listening, startBroker, until } from '../../support/mosquitto.ts';
import { postMessage, words } from './message.ts';

const channelAt = (port: number, more: Partial<BrokerAsked> = {}): BrokerChannel =>
  brokerChannel({
    farm: 'Hill',
    broker: { url: `mqtt://127.0.0.1:${port}`, topic: 'farms/hill' },
    password: null,
    wallMillis: () => 1_784_032_920_000,
    clientId: `test-${port}-${performance.now()}`,
    status: 'told',
    silentMillis: SILENT_MILLIS,
    hidden: (text) => text,
    ...more,
  });

/** What whoever comes now is told of the host. */
const keptStatus = async (port: number): Promise<unknown> => {
  const { client, seen } = await listening(port);
  await sleep(300);
  await client.endAsync(true);
  return seen.length === 0 ? null : JSON.parse(seen.at(-1)!.text);
};

describe('a broker (Debian mosquitto)', () => {
  it('carries calls, keeps the newest status for whoever comes later, and tells "stopped" at an ordered end', async () => {
    const port = await freePort();
    const broker = await startBroker(port);
    const channel = channelAt(port);
    try {
      expect(words(await channel.check!(AbortSignal.timeout(9000)))).toBe('sent: connected');
      channel.says('Wet.');
      await sleep(200);
      const { client, seen } = await listening(port);
      expect(words(await channel.send(postMessage, AbortSignal.timeout(3000)))).toBe(
        'sent: taken by the broker',
      );
      await until(() => seen.length >= 2);
      const status = seen.find(({ topic }) => topic === 'farms/hill/status');
      expect(status?.retain).toBe(true);
      expect(JSON.parse(status!.text)).toMatchObject({ farm: 'Hill', state: 'running' });
      const call = seen.find(({ topic }) => topic === 'farms/hill/call');
      expect(JSON.parse(call!.text)).toMatchObject({ alarm: 'missed-flood', priority: 'high' });
      expect(call?.retain).toBe(false);
      await channel.close();
      await until(() => seen.some(({ text }) => text.includes('stopped')));
      // Time for a last will, which an end in order has taken back.
      await sleep(300);
      expect(JSON.parse(seen.at(-1)!.text)).toMatchObject({ state: 'stopped', says: 'Wet.' });
      await client.endAsync(true);
    } finally {
      await channel.close();
      await ended(broker);
    }
  });

  it('that comes back is told the old sentence with its own time, as of a host that is silent', async () => {
    const port = await freePort();
    const first = await startBroker(port);
    let wall = Date.parse('2026-07-14T12:00:00Z');
    const channel = channelAt(port, { wallMillis: () => wall, silentMillis: 200 });
    let second: ChildProcess | null = null;
    try {
      await channel.check!(AbortSignal.timeout(9000));
      channel.says('Wet, next about 12:59.');
      await ended(first);
      wall += 3 * 3_600_000;
      await sleep(300);
      second = await startBroker(port);
      await channel.check!(AbortSignal.timeout(12_000));
      expect(await keptStatus(port)).toEqual({
        farm: 'Hill',
        state: 'silent',
        says: 'Wet, next about 12:59.',
        at: '2026-07-14T12:00:00.000Z',
      });
    } finally {
      await channel.close();
      if (second !== null) await ended(second);
    }
  });

  it('keeps the status of the host through a test beside it, which carries a call all the same', async () => {
    const port = await freePort();
    const broker = await startBroker(port);
    const host = channelAt(port);
    const test = channelAt(port, { status: 'untold' });
    try {
      await host.check!(AbortSignal.timeout(9000));
      host.says('Wet.');
      expect((await test.send(postMessage, AbortSignal.timeout(9000))).kind).toBe('sent');
      const { client, seen } = await listening(port);
      await test.close();
      await sleep(300);
      expect(seen.map(({ text }) => (JSON.parse(text) as { state: string }).state)).toEqual(['running']);
      await client.endAsync(true);
    } finally {
      await host.close();
      await ended(broker);
    }
  });

  it('that dies is told in words within 4 s, and the next call goes out once it is back', async () => {
    const port = await freePort();
    const first = await startBroker(port);
    const channel = channelAt(port);
    let second: ChildProcess | null = null;
    try {
      await channel.check!(AbortSignal.timeout(9000));
      await ended(first);
      await sleep(100);
      expect(words(await channel.send(postMessage, AbortSignal.timeout(4000)))).toMatch(
        /^later: no connection to the broker/,
      );
      second = await startBroker(port);
      expect(words(await channel.check!(AbortSignal.timeout(12_000)))).toBe('sent: connected');
      expect((await channel.send(postMessage, AbortSignal.timeout(3000))).kind).toBe('sent');
    } finally {
      await channel.close();
      if (second !== null) await ended(second);
    }
  });
});
