import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createServer, type AddressInfo, type Socket } from 'node:net';
import { join, resolve } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { createHerald, type HeraldAsked, type RunningHerald } from '../../firmware-host/herald/herald.ts';
import { heraldSchema } from '../../src/farm/herald-schema.ts';
import { ended, freePort, listening, startBroker, until } from '../support/mosquitto.ts';
import { hook } from './hook.ts';
import { farmTextWith, ownFolder, rillkeeper, RIBEIRA, written } from './rillkeeper.ts';

const WORKER = resolve('dist/herald.mjs');

const CALL = {
  kind: 'raised',
  alarm: 'missed-flood',
  also: [],
  seenBy: null,
  priority: 'high',
  text: 'No water came back since 13:42.',
  message: 'No water since 13:42.',
  rung: 0,
  minutesLeft: 45,
} as const;

const asked = (herald: unknown, folder: string = ownFolder()): HeraldAsked => ({
  farm: 'Hill',
  timeZone: 'Europe/Lisbon',
  language: 'en',
  herald: heraldSchema.parse(herald),
  folder,
  source: 'network',
  clock: 'known',
  talk: () => undefined,
});

/** A server that takes connections and never says a word. */
const mute = async (): Promise<{ port: number; close: () => void }> => {
  const sockets: Socket[] = [];
  const server = createServer((socket) => {
    socket.on('error', () => undefined);
    sockets.push(socket);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    port: (server.address() as AddressInfo).port,
    close: () => {
      for (const socket of sockets) socket.destroy();
      server.close();
    },
  };
};

/** The longest that this thread was kept from a timer of 5 ms. */
const longestDelay = async (millis: number): Promise<number> => {
  let longest = 0;
  let last = performance.now();
  const timer = setInterval(() => {
    const now = performance.now();
    longest = Math.max(longest, now - last - 5);
    last = now;
  }, 5);
  await sleep(millis);
  clearInterval(timer);
  return longest;
};

describe('the herald in its thread', () => {
  it('posts within 5 s of tell(), and hands back what was delivered, by the clock of this thread', async () => {
    const to = await hook(204);
    const herald = createHerald(asked({ webhooks: [{ name: 'shop', url: to.url }] }), WORKER);
    const before = performance.now();
    herald.tell(CALL);
    await until(() => to.got.length > 0, 5000);
    const millis = performance.now() - before;
    await sleep(200);
    const heard = herald.heard();
    await herald.close();
    to.close();
    expect(to.got).toHaveLength(1);
    expect(millis).toBeLessThan(5000);
    expect(heard).toMatchObject([{ kind: 'delivered', channel: 'webhook shop', call: CALL }]);
    const at = heard.flatMap((each) => (each.kind === 'delivered' ? [each.at] : []))[0]!;
    expect(at - before).toBeGreaterThan(0);
    expect(at - before).toBeLessThan(millis + 1000);
  });

  it('delays this thread by less than 250 ms while modem, mail server and webhook hang with 50 calls', async () => {
    const folder = ownFolder();
    const port = join(folder, 'modem');
    const socat = spawn('socat', [`PTY,link=${port},raw,echo=0`, 'PTY,raw,echo=0'], { stdio: 'ignore' });
    await until(() => existsSync(port), 3000);
    const server = await mute();
    const base = asked(
      {
        people: [{ name: 'Ana', phone: '+351912000001', email: 'ana@example.org' }],
        mail: { host: '127.0.0.1', port: server.port, security: 'tls', from: 'shed@example.org' },
        webhooks: [{ name: 'shop', url: `http://127.0.0.1:${server.port}/` }],
      },
      folder,
    );
    // A pseudo-terminal stands where no farm file may point.
    const herald = createHerald({ ...base, herald: { ...base.herald, modem: { port } } }, WORKER);
    await sleep(1500);
    let telling = 0;
    for (let count = 0; count < 50; count += 1) {
      const before = performance.now();
      herald.tell({ ...CALL, text: `call ${count}` });
      telling = Math.max(telling, performance.now() - before);
    }
    const delay = await longestDelay(4000);
    await herald.close();
    server.close();
    socat.kill('SIGKILL');
    expect(telling).toBeLessThan(50);
    expect(delay).toBeLessThan(250);
  });

  it('that was ended before a call arrived delivers it after the next start, within 5 s', async () => {
    const folder = ownFolder();
    const broken = await hook(503);
    const first = createHerald(asked({ webhooks: [{ name: 'shop', url: broken.url }] }, folder), WORKER);
    first.tell(CALL);
    await until(() => broken.got.length > 0);
    await sleep(100);
    await first.close();
    broken.close();
    const well = await hook(204);
    const second = createHerald(asked({ webhooks: [{ name: 'shop', url: well.url }] }, folder), WORKER);
    await until(() => well.got.length > 0, 5000);
    await second.close();
    well.close();
    expect(well.got.map(({ text }) => (JSON.parse(text) as { text: string }).text)).toEqual([CALL.text]);
  });

  it('does not use secrets that others can read, says so, and writes none of them down', async () => {
    const folder = ownFolder();
    mkdirSync(folder, { recursive: true });
    const secrets = written(
      folder,
      'secrets.env',
      'RILLKEEPER_WEBHOOK_URL_SHOP=http://127.0.0.1:9/hunter2-hunter2\n',
    );
    const told: string[] = [];
    const start = (): RunningHerald =>
      createHerald(
        { ...asked({ webhooks: [{ name: 'shop' }] }, folder), talk: (text) => told.push(text) },
        WORKER,
      );
    chmodSync(secrets, 0o644);
    const first = start();
    await until(() => told.length > 0);
    await first.close();
    expect(told[0]).toContain('chmod 600');
    chmodSync(secrets, 0o600);
    const second = start();
    second.tell(CALL);
    await sleep(1500);
    const heard = JSON.stringify(second.heard());
    await second.close();
    expect(told).toHaveLength(1);
    expect(heard).toContain('failed');
    expect(heard + readFileSync(join(folder, 'delivery.json'), 'utf8')).not.toContain('hunter2');
  });

  it.each([
    ['its process is killed outright', 'SIGKILL', 10],
    // One and a half times the 20 s between two words, and the broker's own round of 5 s (MQTT 5.0, 3.1.2.10).
    ['it falls silent without an end, as when the whole shed is dark', 'SIGSTOP', 40],
  ] as const)(
    'tells a watcher outside the last will "lost", retained, when %s',
    async (_, signal, seconds) => {
      const port = await freePort();
      const broker = await startBroker(port);
      const folder = ownFolder();
      const opening = {
        ...asked({ broker: { url: `mqtt://127.0.0.1:${port}`, topic: 'farms/hill' } }, folder),
        talk: undefined,
        clockAtZero: 0,
      };
      const script = written(
        folder,
        'host.mjs',
        `import { Worker } from 'node:worker_threads';
       const worker = new Worker(${JSON.stringify(WORKER)}, { workerData: ${JSON.stringify(opening)} });
       worker.postMessage({ kind: 'says', sentence: 'Wet.' });`,
      );
      const { client, seen } = await listening(port);
      const host = spawn(process.execPath, [script], { stdio: 'ignore' });
      await until(() => seen.some(({ text }) => text.includes('running')));
      host.kill(signal);
      await until(() => seen.some(({ text }) => text.includes('lost')), seconds * 1000);
      host.kill('SIGKILL');
      await client.endAsync(true);
      const later = await listening(port);
      await until(() => later.seen.length > 0);
      await later.client.endAsync(true);
      await ended(broker);
      expect(JSON.parse(later.seen[0]!.text)).toEqual({ farm: 'Hill', state: 'lost', says: null });
      expect(later.seen[0]!.retain).toBe(true);
    },
  );
});

const realFarm = (herald: string): string => {
  const { text } = farmTextWith('outsideWatcher: nobody', 'outsideWatcher: nobody');
  return text.replace(/^invented:.*\n(?: .*\n)*/m, '').replace(/^herald:\n(?: .*\n)*/m, `${herald}\n`);
};

describe('herald test', () => {
  it('posts a marked test, tells that it was taken, and ends with 0; through one that refuses with 1', async () => {
    const [well, broken] = [await hook(204), await hook(500)];
    const folder = ownFolder();
    const one = `{ name: shop, url: "${well.url}" }`;
    const farm = written(folder, 'farm.yaml', realFarm(`herald: { webhooks: [${one}] }`));
    const good = await rillkeeper('herald', 'test', farm);
    expect(good.code).toBe(0);
    expect(good.stdout).toMatch(/^taken {3}webhook shop, post: answered 204/);
    expect(well.got[0]!.text).toContain('"purpose":"test"');
    expect(well.got[0]!.text).toContain('Nothing is wrong');
    const two = written(
      folder,
      'two.yaml',
      realFarm(`herald: { webhooks: [${one}, { name: other, url: "${broken.url}" }] }`),
    );
    const bad = await rillkeeper('herald', 'test', two);
    expect(bad.code).toBe(1);
    expect(bad.stdout).toContain('FAILED  webhook other, post: answered 500');
    const only = await rillkeeper('herald', 'test', two, '--channel', 'webhook shop', '--json');
    expect(only.code).toBe(0);
    expect(JSON.parse(only.stdout)).toMatchObject([{ channel: 'webhook shop', ok: true }]);
    well.close();
    broken.close();
  });

  it('calls nobody for an invented farm, and refuses a channel that is not there', async () => {
    const invented = await rillkeeper('herald', 'test', RIBEIRA);
    expect(invented.code).toBe(4);
    expect(invented.stderr).toContain('nobody is called for it');
    const farm = written(
      ownFolder(),
      'farm.yaml',
      realFarm('herald: { webhooks: [{ name: shop, url: "http://127.0.0.1:9/" }] }'),
    );
    const unknown = await rillkeeper('herald', 'test', farm, '--channel', 'pigeon');
    expect(unknown.code).toBe(2);
    expect(unknown.stderr).toContain('there are webhook shop');
  });
});
