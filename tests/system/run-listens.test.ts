import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { describe, expect, it, vi } from 'vitest';
import { startPeers } from '../support/peers.ts';
import { familyOf, openSockets, socketsOf } from './open-sockets.ts';
import { deskBoard, onPty } from './pty-board.ts';
import { ownFolder, realFarmText, startedLong, written } from './rillkeeper.ts';

/** Fault 61 on the real process, today: whoever would flood a host with requests must first find something that listens. */
const SECONDS = 1000;
vi.setConfig({ testTimeout: 110 * SECONDS });

/** Listens itself and has a child that does, each on a port of both kinds and both families of addresses. */
const LISTENER = `import { spawn } from 'node:child_process';
import { createSocket } from 'node:dgram';
import { createServer } from 'node:net';
const all = [];
for (const [type, host] of [['udp4', '127.0.0.1'], ['udp6', '::1']]) all.push(new Promise((done) => { const one = createSocket(type); one.bind(0, host, done); }));
for (const host of ['127.0.0.1', '::1']) all.push(new Promise((done) => createServer().listen(0, host, done)));
await Promise.all(all);
if (process.argv[2] === 'child') console.log('ready');
else spawn(process.execPath, [process.argv[1], 'child'], { stdio: ['pipe', 'inherit', 'inherit'] });
process.stdin.resume().on('end', () => process.exit());`;

describe('who looks for open sockets', () => {
  it('finds those of a process and of its child: of TCP and UDP, IPv4 and IPv6, 8 of 8', async () => {
    const script = written(ownFolder(), 'listener.mjs', LISTENER);
    const child = spawn(process.execPath, [script], { stdio: ['pipe', 'pipe', 'inherit'] });
    await once(child.stdout, 'data');
    const found = openSockets(child.pid!);
    expect(familyOf(child.pid!)).toHaveLength(2);
    child.stdin.end();
    await once(child, 'exit');
    expect(found.map(({ table }) => table).sort()).toEqual(
      ['tcp', 'tcp6', 'udp', 'udp6'].flatMap((table) => [table, table]),
    );
  });
});

/** The names in the kernel by which a host keeps a second one off: of its state folder, its port and itself (proc(5), /proc/net/unix). */
const namesOf = (pid: number): readonly string[] => {
  const own = socketsOf(pid);
  return readFileSync(`/proc/${pid}/net/unix`, 'utf8')
    .split('\n')
    .filter((line) => own.has(line.trim().split(/\s+/)[6] ?? ''))
    .flatMap((line) => /@(rillkeeper-[0-9a-z-]+)@*$/.exec(line)?.[1] ?? []);
};

describe('a running host with modem, mail, webhook, broker and a flood under way', () => {
  it('has no TCP or UDP socket that waits for somebody, and cuts 300 who knock at its name in the kernel', async () => {
    const peers = await startPeers('well');
    const desk = deskBoard();
    // Open: the float says that the tank is low, which is an alarm from the start, and goes out on every channel.
    desk.digital.set(4, 1);
    const board = await onPty(desk.peer);
    const text = realFarmText('Hollow').replace('shortestOffSeconds: 30', 'shortestOffSeconds: 10');
    const running = startedLong(
      'run',
      written(ownFolder(), 'farm.yaml', `${text}${peers.herald}`),
      '--board',
      board.path,
    );
    const pid = running.child.pid!;
    await running.said('the board answers');
    await expect.poll(() => peers.posted.length, { timeout: 30 * SECONDS }).toBeGreaterThan(0);
    await expect.poll(() => peers.dialled.join(''), { timeout: 30 * SECONDS }).toContain('AT+CMGS=');
    // It talks to all of them meanwhile, some in connections of its own.
    for (let look = 0; look < 10; look += 1) {
      expect(openSockets(pid)).toEqual([]);
      await new Promise((done) => setTimeout(done, 200));
    }

    const descriptors = (): number => readdirSync(`/proc/${pid}/fd`).length;
    const names = namesOf(pid);
    expect(names).toHaveLength(3);
    const fewest = descriptors();
    const cut = await Promise.all(
      Array.from({ length: 300 }, async (_, knock) => {
        const socket = connect(`\0${names[knock % 3]!}`);
        socket.on('error', () => undefined).resume();
        await once(socket, 'close');
        return socket.destroyed;
      }),
    );
    expect(cut).toHaveLength(300);
    expect(descriptors()).toBeLessThan(fewest + 20);

    running.child.kill('SIGTERM');
    const { code } = await running.ended;
    await board.unplug();
    await peers.close();
    expect(code).toBe(0);
  });
});
