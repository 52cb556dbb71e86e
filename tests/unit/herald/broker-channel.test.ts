import type { ChildProcess } from 'node:child_process';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { brokerChannel, type BrokerChannel } from '../../../firmware-host/herald/broker-channel.ts';
import { ended, freePort, listening, startBroker, until } from '../../support/mosquitto.ts';
import { postMessage, words } from './message.ts';

const channelAt = (port: number): BrokerChannel =>
  brokerChannel({
    farm: 'Hill',
    broker: { url: `mqtt://127.0.0.1:${port}`, topic: 'farms/hill' },
    password: null,
    wallMillis: () => 1_784_032_920_000,
    clientId: `test-${port}-${performance.now()}`,
  });

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
      expect(JSON.parse(seen.at(-1)!.text)).toMatchObject({ state: 'stopped' });
      await client.endAsync(true);
    } finally {
      await channel.close();
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
