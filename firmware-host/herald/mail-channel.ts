import { Socket } from 'node:net';
import { createTransport } from 'nodemailer';
import type { Farm } from '../../src/farm/farm.ts';
import { failed, sent, type Message, type Sent } from '../../src/delivery/message.ts';
import type { Channel } from './channel.ts';
import { cutWhenLoud } from './loud-peer.ts';
import { networkWords, quotedWords, type Hidden } from './network-words.ts';

type MailSection = NonNullable<NonNullable<Farm['herald']>['mail']>;

/** Of each phase of a delivery (RFC 5321, 4.5.3.2 allows minutes; an alarm has none to give). */
export interface MailTimes {
  readonly connectMillis: number;
  readonly greetingMillis: number;
  readonly silenceMillis: number;
}
export const MAIL_TIMES: MailTimes = { connectMillis: 10_000, greetingMillis: 10_000, silenceMillis: 15_000 };

/** Of what a server says of itself and to some ten commands; a line has at most 512 (RFC 5321, 4.5.3.1.5). */
const HEARD_BYTES_MAX = 65_536;

export interface MailAsked {
  readonly farm: string;
  readonly mail: MailSection;
  readonly password: string | null;
  readonly times: MailTimes;
  readonly hidden: Hidden;
  /** Certificates to trust beside those of the system, for a server of one's own. */
  readonly ca?: string;
}

const SUBJECT_LETTERS_MAX = 78;
/** Of what a server answers. */
const SAID_LETTERS_MAX = 100;

const subjectOf = (farm: string, { call, purpose, text }: Message): string => {
  const first = text.split('\n')[0] ?? '';
  const marks = {
    call: call?.priority === 'high' && call.kind !== 'returned' ? `${farm}, ALARM: ` : `${farm}: `,
    answer: `${farm}: `,
    test: `${farm}, TEST: `,
  };
  // RFC 5322, 2.1.1; a line break would begin another header.
  return `${marks[purpose]}${first}`.replace(/[\r\n]+/g, ' ').slice(0, SUBJECT_LETTERS_MAX);
};

interface SmtpError {
  readonly responseCode?: number;
  readonly response?: string;
  readonly code?: string;
  readonly command?: string;
}

/**
 * That the mailbox of this recipient is none (RFC 3463, 3.2). Any other refusal at RCPT TO, as 5.7.1 (relay denied) or a 550
 * without such a number, may be that of every message; X.1.7 and X.1.8 are about the sender.
 */
const BAD_ADDRESS = /^\d{3}[ -]5\.1\.(?:1|2|3|4|6|10)\b/;

const mailFailure = (error: unknown, hidden: Hidden): Sent => {
  const { responseCode, response, code, command } = error as SmtpError;
  if (responseCode === undefined) return failed(`the mail server: ${networkWords(error, hidden)}`);
  const says = quotedWords(response ?? String(responseCode), hidden, SAID_LETTERS_MAX);
  if (code === 'EAUTH') return failed(`the mail server refuses the login: ${says}`);
  const isAddress = code === 'EENVELOPE' && command === 'RCPT TO' && BAD_ADDRESS.test(response ?? '');
  return failed(`the mail server refuses: ${says}`, isAddress ? 'useless' : 'later');
};

/** Mail through one server, a connection for each message, which is cut when it is no longer wanted. */
export const mailChannel = ({ farm, mail, password, times, hidden, ca }: MailAsked): Channel => {
  const refused = (error: unknown): Sent => mailFailure(error, hidden);
  const talked = async (
    signal: AbortSignal,
    talk: (transport: ReturnType<typeof createTransport>) => Promise<Sent>,
  ): Promise<Sent> => {
    if (mail.user !== undefined && password === null) {
      return failed('no password: set RILLKEEPER_MAIL_PASSWORD');
    }
    const socket = new Socket();
    const cut = (): void => void socket.destroy();
    signal.addEventListener('abort', cut, { once: true });
    const loud = new Promise<Sent>((done) => {
      // Not before: whoever listens first starts the flow.
      socket.once('connect', () => {
        cutWhenLoud(socket, HEARD_BYTES_MAX, () => {
          done(failed('the mail server: it says more than anybody has asked for'));
          cut();
        });
      });
    });
    const transport = createTransport({
      host: mail.host,
      port: mail.port,
      secure: mail.security === 'tls',
      requireTLS: mail.security === 'starttls',
      ignoreTLS: mail.security === 'none',
      ...(mail.user === undefined ? {} : { auth: { user: mail.user, pass: password ?? '' } }),
      tls: { minVersion: 'TLSv1.2', ...(ca === undefined ? {} : { ca }) },
      socket,
      connectionTimeout: times.connectMillis,
      dnsTimeout: times.connectMillis,
      greetingTimeout: times.greetingMillis,
      socketTimeout: times.silenceMillis,
      // A message is only what is written here: no file, no address is fetched.
      disableFileAccess: true,
      disableUrlAccess: true,
    });
    const aborted = new Promise<Sent>((done) => {
      signal.addEventListener('abort', () => {
        done(failed('no longer waited for'));
      });
    });
    try {
      return await Promise.race([talk(transport).catch(refused), loud, aborted]);
    } finally {
      signal.removeEventListener('abort', cut);
      transport.close();
      socket.destroy();
    }
  };
  return {
    name: 'mail',
    forms: ['mail'],
    most: 2,
    send: (message, signal) => {
      const to = message.to?.email ?? null;
      if (to === null) return Promise.resolve(failed('no e-mail address', 'useless'));
      return talked(signal, async (transport) => {
        await transport.sendMail({
          from: mail.from,
          to,
          subject: subjectOf(farm, message),
          text: `${message.text}\n`,
          // RFC 3834: no machine should answer a machine.
          headers: { 'Auto-Submitted': 'auto-generated' },
          ...(message.call?.priority === 'high' ? { priority: 'high' as const } : {}),
        });
        return sent('taken by the mail server');
      });
    },
    check: (signal) =>
      talked(signal, async (transport) => {
        await transport.verify();
        return sent('the mail server answers');
      }),
    close: () => Promise.resolve(),
  };
};
