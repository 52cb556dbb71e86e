import type { Farm } from './farm.ts';
import { warnWhen, type FarmWarning } from './warning.ts';

type Herald = NonNullable<Farm['herald']>;

/** The ways by which a message can leave this host. */
export const channelNames = ({ people, modem, mail, webhooks, broker }: Herald): readonly string[] => [
  ...(modem !== undefined && people.some(({ phone }) => phone !== undefined) ? ['modem'] : []),
  ...(mail !== undefined && people.some(({ email }) => email !== undefined) ? ['mail'] : []),
  ...webhooks.map(({ name }) => `webhook ${name}`),
  ...(broker === undefined ? [] : ['broker']),
];

const hasWay = ({ phone, email }: Herald['people'][number]): boolean =>
  phone !== undefined || email !== undefined;

/** Whether what a person has fits a channel that the farm has. */
const isReached = ({ modem, mail }: Herald, { phone, email }: Herald['people'][number]): boolean =>
  (phone !== undefined && modem !== undefined) || (email !== undefined && mail !== undefined);

const watchedByBrokerAlone = ({ outsideWatcher, herald }: Farm): boolean =>
  outsideWatcher !== 'nobody' && outsideWatcher.by === 'broker' && herald?.broker === undefined;

/** Whom nobody could reach. */
export const heraldWarnings = (farm: Farm): readonly FarmWarning[] => {
  const { herald } = farm;
  if (herald === undefined) {
    return [
      {
        path: ['farm'],
        says: 'There is no herald: an alarm is told by lamp, buzzer and status, to whoever stands there.',
        advice: 'Add a herald section with people and a modem, a mail server, a webhook or a broker.',
      },
    ];
  }
  const channels = channelNames(herald);
  const path = ['herald'];
  return [
    ...warnWhen(channels.length === 0, {
      path,
      says: 'No message can leave this host: no channel has both a way out and somebody at its end.',
      advice: 'A modem needs a person with a phone, a mail server one with an e-mail address.',
    }),
    ...warnWhen(channels.length === 1, {
      path,
      says: `One channel only (${channels.join('')}): when it is dead, nobody is called.`,
      advice:
        'Add a second that shares nothing with it: a modem beside the internet, or the other way round.',
    }),
    ...warnWhen(herald.modem === undefined && channels.length > 1, {
      path,
      says: 'Every channel needs the internet of this place, which often goes together with its mains.',
      advice: 'A GSM modem with the host on a small battery still calls then.',
    }),
    ...herald.people.flatMap((person, place) =>
      warnWhen(!hasWay(person), {
        path: ['herald', 'people', place],
        says: 'This person has neither phone nor e-mail, and is never called.',
        advice: 'Add one of them.',
      }),
    ),
    ...herald.people.flatMap((person, place) =>
      warnWhen(hasWay(person) && !isReached(herald, person), {
        path: ['herald', 'people', place],
        says: 'No channel of this farm reaches this person, who is never called.',
        advice:
          'A phone needs the modem, an e-mail address the mail server: add it, or the other way of this person.',
      }),
    ),
    ...herald.webhooks.flatMap(({ url }, place) =>
      warnWhen(url?.startsWith('http://') === true, {
        path: ['herald', 'webhooks', place, 'url'],
        says: 'Without TLS everybody on the way reads and may change what this webhook is told.',
        advice: 'Use https://.',
      }),
    ),
    ...warnWhen(herald.broker?.url.startsWith('mqtt://') === true, {
      path: ['herald', 'broker', 'url'],
      says: 'Without TLS a password and every message go to this broker for everybody on the way to read.',
      advice: 'Use mqtts:// unless the broker stands in the same house.',
    }),
    ...warnWhen(watchedByBrokerAlone(farm), {
      path: ['outsideWatcher', 'by'],
      says: 'The outside watcher is told by a broker, and the herald has none.',
      advice: 'Add herald.broker, or name another way.',
    }),
  ];
};
