import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
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

/** Debian's mosquitto on a port of its own. */
export const startBroker = async (port: number): Promise<ChildProcess> => {
  const file = join(mkdtempSync(join(tmpdir(), 'rillkeeper-broker-')), 'mosquitto.conf');
  writeFileSync(file, `listener ${port} 127.0.0.1\nallow_anonymous true\npersistence false\n`);
  const broker = spawn('mosquitto', ['-c', file], {
    stdio: 'ignore',
    env: { PATH: `${process.env['PATH'] ?? ''}:/usr/sbin` },
  });
  await once(broker, 'spawn');
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
