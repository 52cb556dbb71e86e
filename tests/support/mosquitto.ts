import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { connect, createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { connectAsync, type MqttClient } from 'mqtt';

export const freePort = async (): Promise<number> => {
  const server = createServer();
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  return port;
};

const answers = async (port: number): Promise<boolean> => {
  const socket = connect(port, '127.0.0.1');
  try {
    await once(socket, 'connect');
    return true;
  } catch {
    return false;
  } finally {
    socket.destroy();
  }
};

/** Debian's mosquitto on a port of its own, with more lines of its configuration where wanted, once it takes connections. @throws Error when it ends instead, with its last words */
export const startBroker = async (port: number, more = ''): Promise<ChildProcess> => {
  const file = join(mkdtempSync(join(tmpdir(), 'rillkeeper-broker-')), 'mosquitto.conf');
  writeFileSync(file, `listener ${port} 127.0.0.1\nallow_anonymous true\npersistence false\n${more}\n`);
  const broker = spawn('mosquitto', ['-c', file], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { PATH: `${process.env['PATH'] ?? ''}:/usr/sbin` },
  });
  let words = '';
  broker.stderr.on('data', (piece: Buffer) => (words = `${words}${piece.toString()}`.slice(-1000)));
  await once(broker, 'spawn');
  while (!(await answers(port))) {
    if (broker.exitCode !== null) throw new Error(`mosquitto ended with ${broker.exitCode}: ${words}`);
    await sleep(20);
  }
  return broker;
};
export const ended = async (broker: ChildProcess): Promise<void> => {
  broker.kill('SIGKILL');
  if (broker.exitCode === null && broker.signalCode === null) await once(broker, 'exit');
};

export const listening = async (
  port: number,
): Promise<{ client: MqttClient; seen: { topic: string; text: string; retain: boolean }[] }> => {
  const seen: { topic: string; text: string; retain: boolean }[] = [];
  const client = await connectAsync(`mqtt://127.0.0.1:${port}`);
  client.on('message', (topic, payload, { retain }) =>
    seen.push({ topic, text: payload.toString(), retain }),
  );
  await client.subscribeAsync('farms/#', { qos: 1 });
  return { client, seen };
};
export const until = async (holds: () => boolean, millis = 10_000): Promise<void> => {
  for (let waited = 0; waited < millis && !holds(); waited += 20) await sleep(20);
};
