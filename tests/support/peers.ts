import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readlinkSync } from 'node:fs';
import { createServer as createHttp } from 'node:http';
import { createServer, type AddressInfo, type Server, type Socket } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { SMTPServer } from 'smtp-server';
import { ownFolder } from '../system/rillkeeper.ts';
import { ended, freePort, startBroker } from './mosquitto.ts';

/** `hang`: they take connections and bytes, and never say a word; the web and the broker stay well. */
export type Mood = 'well' | 'hang';

/** Somebody at the other end of each of the four ways out of a herald. */
export interface Peers {
  /** The section of a farm file that names them. */
  readonly herald: string;
  /** What came to the web address. */
  readonly posted: readonly string[];
  /** What the modem heard, as it came. */
  readonly dialled: readonly string[];
  readonly close: () => Promise<void>;
}

const portOf = async (server: Server): Promise<number> => {
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return (server.address() as AddressInfo).port;
};

/** Ctrl-Z: a text has been handed over. */
const END_OF_WORDS = '\u001a';

interface Peer<Where> {
  readonly where: Where;
  readonly close: () => Promise<void> | void;
}

/** A modem that says yes to whatever it is asked, or nothing at all. @throws Error when socat is not installed */
const modem = async (mood: Mood): Promise<Peer<string> & { readonly heard: readonly string[] }> => {
  const heard: string[] = [];
  const link = join(ownFolder(), 'modem');
  const child = spawn('socat', ['-', `PTY,link=${link},raw,echo=0`], { stdio: ['pipe', 'pipe', 'ignore'] });
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('socat is not installed: apt-get install socat');
  child.stdin.on('error', () => undefined);
  child.stdout.on('data', (bytes: Buffer) => {
    const text = bytes.toString('latin1');
    heard.push(text);
    if (mood === 'hang') return;
    if (text.includes('+CPIN?')) child.stdin.write('\r\n+CPIN: READY\r\n');
    if (text.includes('+CREG?')) child.stdin.write('\r\n+CREG: 0,1\r\n');
    if (text.includes('+CMGS=')) child.stdin.write('\r\n> ');
    else if (text.includes('\r') || text.includes(END_OF_WORDS)) child.stdin.write('\r\nOK\r\n');
  });
  while (!existsSync(link)) await sleep(10);
  // A farm file names a port under /dev, where the pseudo-terminal itself stands.
  return { where: readlinkSync(link), heard, close: () => void child.kill('SIGKILL') };
};

const mailServer = async (mood: Mood): Promise<Peer<number>> => {
  const open = new Set<Socket>();
  if (mood === 'hang') {
    const server = createServer((socket) => {
      open.add(socket.on('error', () => undefined));
    });
    const where = await portOf(server);
    const close = (): void => {
      open.forEach((socket) => socket.destroy());
      server.close();
    };
    return { where, close };
  }
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData: (stream, _, done) => {
      stream.resume().on('end', done);
    },
  });
  const close = (): void => {
    server.close(() => undefined);
  };
  return { where: await portOf(server.server), close };
};

const hook = async (): Promise<Peer<number> & { readonly posted: readonly string[] }> => {
  const posted: string[] = [];
  const server = createHttp((request, response) => {
    let text = '';
    request.on('data', (piece: Buffer) => (text += piece.toString()));
    request.on('end', () => {
      posted.push(text);
      response.writeHead(204).end();
    });
  });
  const close = (): void => {
    server.closeAllConnections();
    server.close();
  };
  return { where: await portOf(server), posted, close };
};

/** Modem, mail server, web address and a real broker, of which the first two hang or are well. */
export const startPeers = async (mood: Mood): Promise<Peers> => {
  const [phone, mail, web, brokerPort] = await Promise.all([
    modem(mood),
    mailServer(mood),
    hook(),
    freePort(),
  ]);
  const broker = await startBroker(brokerPort);
  return {
    herald: `herald:
  people:
    - { name: Ana, phone: '+447700900123', email: ana@example.org }
  night: { from: '21:30', to: '06:30' }
  modem: { port: ${phone.where} }
  mail: { host: 127.0.0.1, port: ${mail.where}, security: none, from: shed@example.org }
  webhooks: [{ name: co-op, url: 'http://127.0.0.1:${web.where}/' }]
  broker: { url: 'mqtt://127.0.0.1:${brokerPort}', topic: farms/bench }
`,
    posted: web.posted,
    dialled: phone.heard,
    close: async () => {
      await Promise.all([phone.close(), mail.close(), web.close(), ended(broker)]);
    },
  };
};
