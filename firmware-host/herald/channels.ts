import { randomBytes } from 'node:crypto';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { SECRET_NAMES } from '../../src/farm/secret-names.ts';
import { failed, type Sent } from '../../src/delivery/message.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { OpenLine } from '../devices/line.ts';
import type { BrokerChannel } from './broker-channel.ts';
import type { Channel } from './channel.ts';
import type { TextCame } from './gsm/gsm-inbox.ts';
import { GSM_TIMES, type SimPin } from './gsm/gsm-ready.ts';
import type { Secrets } from './secrets.ts';
import { webhookChannel } from './webhook-channel.ts';

export interface ChannelsAsked {
  readonly farm: string;
  readonly herald: NonNullable<Farm['herald']>;
  readonly secrets: Secrets;
  readonly folder: string;
  readonly toGsm7: (text: string) => string;
  /** The line to the modem. */
  readonly openLine: OpenLine;
  readonly came: (text: TextCame) => void;
  /** Who opens them: a test beside the host must not speak for it. */
  readonly as: 'host' | 'test';
}

export interface Channels {
  readonly all: readonly Channel[];
  readonly broker: BrokerChannel | null;
}

/** Beside the state, so that a restart does not give a wrong PIN a third time, which would block the card. */
export const pinRefusedFile = (folder: string): string => join(folder, 'sim-pin-refused');

const simPin = (folder: string, secrets: Secrets): SimPin => {
  const path = pinRefusedFile(folder);
  let refused = false;
  return {
    pin: secrets.get(SECRET_NAMES.simPin),
    wasRefused: () => refused || existsSync(path),
    refused: () => {
      refused = true;
      try {
        writeFileSync(
          path,
          'The SIM card has refused RILLKEEPER_SIM_PIN. Correct it, then delete this file.\n',
          {
            mode: 0o600,
          },
        );
      } catch {
        // A disk that takes nothing: this process remembers it all the same.
        refused = true;
      }
    },
  };
};

const modemOf = async (
  port: string,
  { folder, secrets, toGsm7, openLine, came }: ChannelsAsked,
): Promise<Channel> => {
  const { gsmChannel } = await import('./gsm/gsm-channel.ts');
  return gsmChannel({ port, open: openLine, sim: simPin(folder, secrets), times: GSM_TIMES, toGsm7, came });
};

const mailOf = async (
  mail: NonNullable<ChannelsAsked['herald']['mail']>,
  { farm, secrets }: ChannelsAsked,
): Promise<Channel> => {
  const { MAIL_TIMES, mailChannel } = await import('./mail-channel.ts');
  return mailChannel({
    farm,
    mail,
    password: secrets.get(SECRET_NAMES.mailPassword),
    times: MAIL_TIMES,
    hidden: secrets.hidden,
  });
};

const brokerOf = async (
  broker: NonNullable<ChannelsAsked['herald']['broker']>,
  { farm, secrets, as }: ChannelsAsked,
): Promise<BrokerChannel> => {
  const { brokerChannel, SILENT_MILLIS } = await import('./broker-channel.ts');
  return brokerChannel({
    farm,
    broker,
    password: secrets.get(SECRET_NAMES.brokerPassword),
    wallMillis,
    // Two hosts of one name would throw each other out for ever (MQTT 3.1.1, 3.1.4).
    clientId: `rillkeeper-${randomBytes(6).toString('hex')}`,
    status: as === 'host' ? 'told' : 'untold',
    silentMillis: SILENT_MILLIS,
    hidden: secrets.hidden,
  });
};

const wallMillis = (): number => Date.now();

/** A way out that cannot even be opened is a dead one, and keeps nobody from the others. */
const opened = async <Kind extends Channel>(
  of: Pick<Channel, 'name' | 'forms'>,
  open: Promise<Kind>,
): Promise<Kind | Channel> => {
  try {
    return await open;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    const refuse = (): Promise<Sent> => Promise.resolve(failed(`it could not be opened: ${why}`));
    return { ...of, most: 1, send: refuse, check: refuse, close: () => Promise.resolve() };
  }
};

/** The ways out that the farm file names, each with its secrets. What is not named is not loaded: memory is scarce. */
export const openChannels = async (asked: ChannelsAsked): Promise<Channels> => {
  const { farm, herald, secrets } = asked;
  const modem =
    herald.modem === undefined
      ? []
      : [await opened({ name: 'modem', forms: ['ring', 'text'] }, modemOf(herald.modem.port, asked))];
  const mail =
    herald.mail === undefined
      ? []
      : [await opened({ name: 'mail', forms: ['mail'] }, mailOf(herald.mail, asked))];
  const posts =
    herald.broker === undefined
      ? []
      : [await opened({ name: 'broker', forms: ['post'] }, brokerOf(herald.broker, asked))];
  const webhooks = herald.webhooks.map(({ name, url }) =>
    webhookChannel({
      farm,
      name,
      url: url ?? secrets.get(SECRET_NAMES.webhookUrl(name)),
      key: secrets.get(SECRET_NAMES.webhookKey(name)),
      wallMillis,
      hidden: secrets.hidden,
    }),
  );
  return {
    all: [...modem, ...mail, ...webhooks, ...posts],
    broker: posts.find((channel) => 'says' in channel) ?? null,
  };
};
