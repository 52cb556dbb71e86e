import { connect, type MqttClient } from 'mqtt';
import type { Farm } from '../../src/farm/farm.ts';
import { failed, sent, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import { cutWhenLoud } from './loud-peer.ts';
import { networkWords } from './network-words.ts';
import { webhookBody } from './webhook-channel.ts';

type BrokerSection = NonNullable<NonNullable<Farm['herald']>['broker']>;

export interface BrokerAsked {
  readonly farm: string;
  readonly broker: BrokerSection;
  readonly password: string | null;
  readonly wallMillis: () => number;
  readonly clientId: string;
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
const LAST_WORD_MILLIS = 2000;
/**
 * This host subscribes to nothing, so what a broker has to say are answers of 2 and 4 bytes (MQTT 3.1.1, 3.2, 3.4, 3.13), some 400
 * bytes in a busy minute. A single message may have 256 MB (2.2.3), and is only told once it is whole.
 */
const HEARD_BYTES_A_MINUTE_MAX = 4096;

/**
 * A broker (MQTT 3.1.1). `TOPIC/status` is retained and turns to "lost" by the last will when this host falls silent;
 * `TOPIC/call` carries what people are told. Both at least once (4.3.2).
 */
export const brokerChannel = (asked: BrokerAsked): BrokerChannel => {
  const { farm, broker, password, wallMillis, clientId, ca } = asked;
  const statusTopic = `${broker.topic}/status`;
  const status = (state: 'running' | 'stopped' | 'lost', says: string | null): string =>
    JSON.stringify({
      farm,
      state,
      says,
      ...(state === 'lost' ? {} : { at: new Date(wallMillis()).toISOString() }),
    });
  let lastError = 'not connected yet';
  let sentence: string | null = null;
  let toldSentence: string | null = null;
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
    will: { topic: statusTopic, payload: Buffer.from(status('lost', null)), qos: 1, retain: true },
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
    lastError = networkWords(error);
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
    if (!client.connected) return;
    const now = performance.now();
    const waits = sentence === toldSentence ? STATUS_AGAIN_MILLIS : STATUS_MILLIS;
    if (now - toldAt < waits) return;
    toldAt = now;
    toldSentence = sentence;
    client.publish(statusTopic, status('running', sentence), { qos: 1, retain: true }, () => undefined);
  };

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
        done((error ?? null) === null ? sent('taken by the broker') : failed(networkWords(error)));
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
      tellStatus();
    },
    close: async () => {
      if (client.connected) {
        const signal = AbortSignal.timeout(LAST_WORD_MILLIS);
        await new Promise<void>((done) => {
          signal.addEventListener('abort', () => {
            done();
          });
          client.publish(statusTopic, status('stopped', sentence), { qos: 1, retain: true }, () => {
            done();
          });
        });
      }
      await client.endAsync(true);
    },
  };
};
