import { describe, expect, it } from 'vitest';
import { openChannels } from '../../../firmware-host/herald/channels.ts';
import { postMessage, words } from './message.ts';

const secrets = { get: () => null, refused: null, hidden: (text: string): string => text };

describe('the ways out of a farm', () => {
  it('are all there but the one that cannot be opened, which is a dead one', async () => {
    const { all, broker } = await openChannels({
      farm: 'Hill',
      herald: {
        people: [],
        night: { from: '21:00', to: '07:00' },
        allWellAt: '07:30',
        mail: { host: 'mail.example', port: 465, security: 'tls', from: 'a@b.example' },
        webhooks: [{ name: 'shop', url: 'https://a.example/hook' }],
        broker: { url: 'mqtts://broker.example.org:88883', topic: 'farms/hill' },
      },
      secrets,
      folder: '/nowhere',
      toGsm7: (text) => text,
      openLine: () => {
        throw new Error('no line is opened here');
      },
      came: () => undefined,
      as: 'host',
    });
    expect(all.map(({ name }) => name)).toEqual(['mail', 'webhook shop', 'broker']);
    expect(broker).toBeNull();
    const dead = all[2]!;
    const { signal } = new AbortController();
    expect(words(await dead.send(postMessage, signal))).toMatch(/^later: it could not be opened: \S/);
    expect(words(await dead.check!(signal))).toContain('it could not be opened');
    await Promise.all(all.map((channel) => channel.close()));
  });
});
