import { connect, type MqttClient } from 'mqtt';
import type { Farm } from '../../src/farm/farm.ts';
import { failed, sent, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import { cutWhenLoud } from './loud-peer.ts';
import { networkWords, type Hidden } from './network-words.ts';
import { webhookBody } from './webhook-channel.ts';

type BrokerSection = NonNullable<NonNullable<Farm['herald']>['broker']>;

export interface BrokerAsked {
  readonly farm: string;
  readonly broker: BrokerSection;
  readonly password: string | null;
  readonly wallMillis: () => number;
  readonly clientId: string;
  /** A test carries calls only: the status is that of the host itself, which may be running or lost. */
  readonly status: 'told' | 'untold';
  /** So long after its last sentence the host counts as silent. */
  readonly silentMillis: number;
  readonly hidden: Hidden;
  readonly ca?: string;
}

export interface BrokerChannel extends Channel {
  /** The newest sentence of the host, kept by the broker for whoever asks later. */
  readonly says: (sentence: string) => void;
}

const RECONNECT_MILLIS = 5000;
const CONNECT_MILLIS = 10_000;
/** Twice this without a word, and the broker tells the last will (MQTT 5.0, 3.1.2.10: one and a half times). */
const KEEP_ALIVE_SECONDS = 20;
const STATUS_MILLIS = 10_000;
/** A status that has not changed is told again, so that its time shows that somebody is there. */
const STATUS_AGAIN_MILLIS = 300_000;
/** The host says one every second; after a minute it no longer is the state of anything. */
export const SILENT_MILLIS = 60_000;
const LAST_WORD_MILLIS = 2000;
/** For the end in order (MQTT 3.1.1, 3.14), after which the broker does not tell the last will. */
const DISCONNECT_MILLIS = 1000;
/**
 * This host subscribes to nothing, so what a broker has to say are answers of 2 and 4 bytes (MQTT 3.1.1, 3.2, 3.4, 3.13), some 400
 * bytes in a busy minute. A single message may have 256 MB (2.2.3), and is only told once it is whole.
 */
const HEARD_BYTES_A_MINUTE_MAX = 4096;

interface Told {
  readonly state: 'running' | 'silent' | 'stopped' | 'lost';
  readonly says: string | null;
}

/** What comes of it is told by nobody: this is the end. */
const within = (millis: number, work: Promise<unknown>): Promise<unknown> =>
  Promise.race([work.catch(() => undefined), new Promise((go) => setTimeout(go, millis).unref())]);

/**
 * A broker (MQTT 3.1.1). `TOPIC/status` is retained and turns to "lost" by the last will when this host falls silent;
 * `TOPIC/call` carries what people are told. Both at least once (4.3.2).
 */
export const brokerChannel = (asked: BrokerAsked): BrokerChannel => {
  const { farm, broker, password, wallMillis, clientId, hidden, ca } = asked;
  const statusTopic = `${broker.topic}/status`;
  const status = ({ state, says }: Told, wall: number | null): string =>
    JSON.stringify({ farm, state, says, ...(wall === null ? {} : { at: new Date(wall).toISOString() }) });
  let lastError = 'not connected yet';
  let sentence: string | null = null;
  /** Of that sentence, or of the start before the first: by the wall clock, and on the counter of this thread. */
  let said = { wall: wallMillis(), at: performance.now() };
  let told: Told | null = null;
  let toldAt = -Infinity;
  const client: MqttClient = connect(broker.url, {
    clientId,
    reconnectPeriod: RECONNECT_MILLIS,
    connectTimeout: CONNECT_MILLIS,
    keepalive: KEEP_ALIVE_SECONDS,
    clean: true,
    resubscribe: false,
    // What is sent while the broker is away is tried again by delivery, not kept by the client.
    queueQoSZero: false,
    ...(broker.user === undefined ? {} : { username: broker.user }),
    ...(password === null ? {} : { password }),
    ...(ca === undefined ? {} : { ca }),
    ...(asked.status === 'untold'
      ? {}
      : {
          will: {
            topic: statusTopic,
            payload: Buffer.from(status({ state: 'lost', says: null }, null)),
            qos: 1,
            retain: true,
          },
        }),
  });
  const watchStream = (): void => {
    const { stream } = client;
    cutWhenLoud(stream, HEARD_BYTES_A_MINUTE_MAX, () => {
      lastError = 'the broker sends what nobody has asked for';
      stream.destroy();
    });
  };
  watchStream();
  // Told just before there is a new one.
  client.on('reconnect', () => {
    queueMicrotask(watchStream);
  });
  client.on('error', (error) => {
    lastError = networkWords(error, hidden);
  });
  client.on('close', () => {
    if (lastError === '') lastError = 'the broker cut the connection';
  });
  client.on('connect', () => {
    lastError = '';
    toldAt = -Infinity;
    tellStatus();
  });

  const tellStatus = (): void => {
    if (!client.connected || asked.status === 'untold') return;
    const now = performance.now();
    const state = now - said.at > asked.silentMillis ? 'silent' : 'running';
    const isSame = told?.says === sentence && told.state === state;
    if (now - toldAt < (isSame ? STATUS_AGAIN_MILLIS : STATUS_MILLIS)) return;
    toldAt = now;
    told = { state, says: sentence };
    client.publish(statusTopic, status(told, said.wall), { qos: 1, retain: true }, () => undefined);
  };
  // A host that says nothing does not call either.
  const silence = setInterval(tellStatus, asked.silentMillis / 2);
  silence.unref();

  const published = (topic: string, payload: string, signal: AbortSignal): Promise<Sent> =>
    new Promise((done) => {
      if (!client.connected) {
        done(failed(`no connection to the broker: ${lastError === '' ? 'it is being made' : lastError}`));
        return;
      }
      let id: number | null = null;
      const stop = (): void => {
        if (id !== null) client.removeOutgoingMessage(id);
        done(failed('the broker did not answer in time'));
      };
      signal.addEventListener('abort', stop, { once: true });
      client.publish(topic, payload, { qos: 1 }, (error) => {
        signal.removeEventListener('abort', stop);
        done((error ?? null) === null ? sent('taken by the broker') : failed(networkWords(error, hidden)));
      });
      id = client.getLastMessageId();
    });

  /** Until the connection stands, or nobody waits for it any more. */
  const connected = async (signal: AbortSignal, mostMillis: number): Promise<void> => {
    const until = performance.now() + mostMillis;
    while (!client.connected && !signal.aborted && performance.now() < until) {
      await new Promise((go) => setTimeout(go, 50));
    }
  };

  return {
    name: 'broker',
    forms: ['post'],
    most: 4,
    send: async (message, signal) => {
      await connected(signal, CONNECT_MILLIS / 4);
      return published(`${broker.topic}/call`, webhookBody(farm, message), signal);
    },
    check: async (signal) => {
      await connected(signal, CONNECT_MILLIS);
      return client.connected ? sent('connected') : failed(`no connection to the broker: ${lastError}`);
    },
    says: (text) => {
      sentence = text;
      said = { wall: wallMillis(), at: performance.now() };
      tellStatus();
    },
    close: async () => {
      clearInterval(silence);
      if (client.connected && asked.status === 'told') {
        const last = status({ state: 'stopped', says: sentence }, wallMillis());
        await within(LAST_WORD_MILLIS, client.publishAsync(statusTopic, last, { qos: 1, retain: true }));
      }
      if (client.connected) await within(DISCONNECT_MILLIS, client.endAsync(false));
      if (client.connected) client.stream.destroy();
      else await client.endAsync(true);
    },
  };
};
