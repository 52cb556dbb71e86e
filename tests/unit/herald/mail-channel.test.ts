import { execFileSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync } from 'node:fs';
import { createServer, type AddressInfo, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { describe, expect, it } from 'vitest';
import { mailChannel, type MailAsked } from '../../../firmware-host/herald/mail-channel.ts';
import { MESSAGE, words } from './message.ts';

const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-mail-'));
const certificate = (name: string, days: string): { readonly key: string; readonly cert: string } => {
  const [key, cert] = [join(folder, `${name}.key`), join(folder, `${name}.crt`)];
  const subject = ['-subj', `/CN=${name}`, '-addext', `subjectAltName=DNS:${name}`];
  execFileSync(
    'openssl',
    [
      'req',
      '-x509',
      '-newkey',
      'rsa:2048',
      '-nodes',
      '-days',
      days,
      ...subject,
      '-keyout',
      key,
      '-out',
      cert,
    ],
    { stdio: 'ignore' },
  );
  return { key: readFileSync(key, 'utf8'), cert: readFileSync(cert, 'utf8') };
};
const OWN = certificate('localhost', '30');

const TIMES = { connectMillis: 400, greetingMillis: 400, silenceMillis: 400 };

const sentTo = async (
  port: number,
  security: MailAsked['mail']['security'] = 'none',
  more: Partial<MailAsked> = {},
  user?: string,
): Promise<string> => {
  const mail = {
    host: 'localhost',
    port,
    security,
    from: 'shed@example.org',
    ...(user === undefined ? {} : { user }),
  };
  const channel = mailChannel({
    farm: 'Hill',
    mail,
    password: null,
    times: TIMES,
    hidden: (text) => text,
    ...more,
  });
  return words(await channel.send(MESSAGE, AbortSignal.timeout(3000)));
};

const withServer = async <Result>(
  options: SMTPServerOptions,
  use: (port: number, mails: readonly string[]) => Promise<Result>,
): Promise<Result> => {
  const mails: string[] = [];
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: options.key === undefined ? ['STARTTLS'] : [],
    onData: (stream, _, done) => {
      let text = '';
      stream.on('data', (piece: Buffer) => (text += piece.toString()));
      stream.on('end', () => {
        mails.push(text);
        done();
      });
    },
    ...options,
  });
  server.on('error', () => undefined);
  const listening = server.listen(0, '127.0.0.1');
  await once(listening, 'listening');
  try {
    return await use((listening.address() as AddressInfo).port, mails);
  } finally {
    await new Promise<void>((done) => {
      server.close(() => {
        done();
      });
    });
  }
};

describe('a mail server (npm smtp-server) that', () => {
  it('takes the mail gets it once, with the alarm in its subject, marked as automatic', async () => {
    await withServer({}, async (port, mails) => {
      expect(await sentTo(port)).toBe('sent: taken by the mail server');
      expect(mails).toHaveLength(1);
      expect(mails[0]).toMatch(/^Subject: Hill, ALARM: No water came back since 13:42\.\r$/m);
      expect(mails[0]).toMatch(/^Auto-Submitted: auto-generated\r$/m);
      expect(mails[0]).toMatch(/^To: ana@example\.org\r$/m);
    });
  });

  it.each([
    [450, '4.2.0 not now', 'later', 'RCPT'],
    [550, '5.1.1 no such user here', 'useless', 'RCPT'],
    [550, '5.1.10 the domain takes no mail', 'useless', 'RCPT'],
    // What is refused to everybody: the channel is at fault.
    [554, '5.7.1 relay access denied', 'later', 'RCPT'],
    [550, '5.1.8 sender address rejected', 'later', 'RCPT'],
    [550, 'not now', 'later', 'RCPT'],
    [550, '5.1.1 no such user here', 'later', 'MAIL'],
    [452, '4.3.1 not now', 'later', 'DATA'],
    [554, '5.7.1 not now', 'later', 'DATA'],
  ])('answers %i %s is told as %s (at %s)', async (responseCode, says, again, at) => {
    const error = Object.assign(new Error(says), { responseCode });
    const options: SMTPServerOptions =
      at === 'RCPT'
        ? {
            onRcptTo: (_, __, done) => {
              done(error);
            },
          }
        : at === 'MAIL'
          ? {
              onMailFrom: (_, __, done) => {
                done(error);
              },
            }
          : {
              onData: (stream, _, done) => {
                stream.resume();
                stream.on('end', () => {
                  done(error);
                });
              },
            };
    await withServer(options, async (port) => {
      expect(await sentTo(port)).toMatch(
        new RegExp(`^${again}: the mail server refuses: ${responseCode} .*${says}`),
      );
    });
  });

  it('repeats a secret of 60 letters is told without a part of it, though its words are cut', async () => {
    const secret = 'hunter2-'.repeat(8);
    const error = Object.assign(new Error(`${'x'.repeat(60)} ${secret}`), { responseCode: 554 });
    const options: SMTPServerOptions = {
      onMailFrom: (_, __, done) => {
        done(error);
      },
    };
    await withServer(options, async (port) => {
      const hidden = (text: string): string => text.replaceAll(secret, '…');
      expect(await sentTo(port, 'none', { hidden })).not.toContain('hunter');
    });
  });

  it('refuses the login is told so, without the password', async () => {
    const options: SMTPServerOptions = {
      secure: true,
      ...OWN,
      onAuth: (_, __, done) => {
        done(new Error('no such login'));
      },
    };
    await withServer(options, async (port) => {
      const said = await sentTo(port, 'tls', { password: 'hunter2', ca: OWN.cert }, 'shed');
      expect(said).toMatch(/^later: the mail server refuses the login: 535/);
      expect(said).not.toContain('hunter2');
      expect(await sentTo(port, 'tls', { ca: OWN.cert }, 'shed')).toContain('set RILLKEEPER_MAIL_PASSWORD');
    });
  });

  it('has a certificate that somebody vouches for is spoken to by tls and by starttls', async () => {
    await withServer({ secure: true, ...OWN }, async (port) => {
      expect(await sentTo(port, 'tls', { ca: OWN.cert })).toBe('sent: taken by the mail server');
    });
    await withServer({ ...OWN }, async (port) => {
      expect(await sentTo(port, 'starttls', { ca: OWN.cert })).toBe('sent: taken by the mail server');
    });
  });

  it('has a certificate signed by itself, or for another name, gets nothing', async () => {
    await withServer({ secure: true, ...OWN }, async (port, mails) => {
      expect(await sentTo(port, 'tls')).toMatch(/^later: .*nobody vouches/);
      expect(mails).toEqual([]);
    });
    const other = certificate('other.example', '30');
    await withServer({ secure: true, ...other }, async (port, mails) => {
      expect(await sentTo(port, 'tls', { ca: other.cert })).toMatch(/^later: .*for another name/);
      expect(mails).toEqual([]);
    });
  });

  it('offers no STARTTLS where it is asked for gets nothing', async () => {
    await withServer({}, async (port, mails) => {
      expect(await sentTo(port, 'starttls')).toMatch(/^later: /);
      expect(mails).toEqual([]);
    });
  });
});

/** A server that says these lines, one after each command, and at `null` falls silent or cuts the connection. */
const scripted = async (
  lines: readonly string[],
  end: 'silent' | 'cut' | 'drips',
): Promise<{ said: string; millis: number }> => {
  const sockets: Socket[] = [];
  const server = createServer((socket) => {
    sockets.push(socket);
    const left = [...lines];
    socket.on('error', () => undefined);
    const next = (): void => {
      const line = left.shift();
      if (line !== undefined) socket.write(`${line}\r\n`);
      else if (end === 'cut') socket.destroy();
      else if (end === 'drips') {
        const drip = setInterval(() => socket.write('250-x\r\n'), 100);
        socket.on('close', () => {
          clearInterval(drip);
        });
      }
    };
    next();
    socket.on('data', next);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const before = performance.now();
  const said = await sentTo((server.address() as AddressInfo).port);
  const millis = performance.now() - before;
  for (const socket of sockets) socket.destroy();
  server.close();
  return { said, millis };
};

const PHASES = [
  ['the greeting', []],
  ['EHLO', ['220 here']],
  ['MAIL FROM', ['220 here', '250 hello']],
  ['RCPT TO', ['220 here', '250 hello', '250 ok']],
  ['DATA', ['220 here', '250 hello', '250 ok', '250 ok']],
  ['the mail itself', ['220 here', '250 hello', '250 ok', '250 ok', '354 go on']],
] as const;

describe('a mail server that at', () => {
  it.each(PHASES)('%s falls silent is given up within 2 s', async (_, lines) => {
    const { said, millis } = await scripted(lines, 'silent');
    expect(said).toMatch(/^later: the mail server/);
    expect(millis).toBeLessThan(2000);
  });

  it.each(PHASES)('%s cuts the connection is told as failed at once', async (_, lines) => {
    const { said, millis } = await scripted(lines, 'cut');
    expect(said).toMatch(/^later: /);
    expect(millis).toBeLessThan(2000);
  });

  it('EHLO drips without end is cut when its 3 s are over', async () => {
    const { said, millis } = await scripted(['220 here'], 'drips');
    expect(said).toBe('later: no longer waited for');
    expect(millis).toBeGreaterThan(2900);
    expect(millis).toBeLessThan(4000);
  });
});

it('a closed port is told in words', async () => {
  expect(await sentTo(9)).toMatch(/^later: the mail server: .*/);
});
