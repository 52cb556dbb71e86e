import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { linesAt } from '../../../firmware-host/devices/serial-lines.ts';
import type { Channel } from '../../../firmware-host/herald/channel.ts';
import type { Form, Message } from '../../../src/delivery/message.ts';
import { gsmChannel } from '../../../firmware-host/herald/gsm/gsm-channel.ts';
import type { TextCame } from '../../../firmware-host/herald/gsm/gsm-inbox.ts';
import type { GsmTimes, SimPin } from '../../../firmware-host/herald/gsm/gsm-ready.ts';

/** What a modem says to one command: pieces, each after so many milliseconds; `hang`: nothing, ever. */
export type Says = string | readonly (readonly [millis: number, text: string])[];
export type Script = Readonly<Record<string, Says | ((times: number) => Says)>>;

export const ok = '\r\nOK\r\n';

/** A modem that is well, by 3GPP TS 27.005 and 27.007. `words` is what it says when the words of a text have ended. */
const WELL: Script = {
  'AT+CPIN?': '\r\n+CPIN: READY\r\n\r\nOK\r\n',
  'AT+CREG?': '\r\n+CREG: 0,1\r\n\r\nOK\r\n',
  'AT+CMGS="+351912000001"': '\r\n> ',
  'AT+CLCC': (times) =>
    times < 2 ? '\r\n+CLCC: 1,0,2,0,0\r\n\r\nOK\r\n' : '\r\n+CLCC: 1,0,3,0,0\r\n\r\nOK\r\n',
  words: '\r\n+CMGS: 12\r\n\r\nOK\r\n',
};

export const SHORT: GsmTimes = {
  commandMillis: 250,
  networkMillis: 400,
  ringMillis: 200,
  pollMillis: 30,
  quietMillis: 30,
  restartMillis: 50,
};

export interface FakeModem {
  readonly channel: Channel;
  /** Commands it was given, and `words:…` for those of a text. */
  readonly asked: readonly string[];
  readonly came: readonly TextCame[];
  readonly say: (text: string) => void;
  readonly die: () => void;
}

export const NO_PIN: SimPin = { pin: null, wasRefused: () => false, refused: () => undefined };

/** Runs `use` against the channel with a modem behind a pseudo-terminal that follows the script. */
export const withModem = async <Result>(
  script: Script,
  use: (modem: FakeModem) => Promise<Result>,
  { echo = 'off', sim = NO_PIN, times = SHORT }: { echo?: 'on' | 'off'; sim?: SimPin; times?: GsmTimes } = {},
): Promise<Result> => {
  const folder = await mkdtemp(join(tmpdir(), 'rillkeeper-modem-'));
  const port = join(folder, 'modem');
  const socat = spawn('socat', [`PTY,link=${port},raw,echo=0`, 'STDIO'], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  const asked: string[] = [];
  const came: TextCame[] = [];
  const counts = new Map<string, number>();
  let inWords = false;
  let rest = '';
  socat.stdin.on('error', () => undefined);
  const say = (text: string): void => {
    socat.stdin.write(Buffer.from(text, 'latin1'));
  };
  const answer = (command: string): void => {
    const before = counts.get(command) ?? 0;
    counts.set(command, before + 1);
    const entry = script[command] ?? WELL[command] ?? ok;
    const says = typeof entry === 'function' ? entry(before) : entry;
    if (says === 'hang') return;
    if (command.startsWith('AT+CMGS')) inWords = typeof says !== 'string' || says.includes('>');
    if (typeof says === 'string') say(says);
    else
      for (const [millis, text] of says)
        setTimeout(() => {
          say(text);
        }, millis);
  };
  socat.stdout.on('data', (bytes: Buffer) => {
    if (echo === 'on') say(bytes.toString('latin1'));
    for (const letter of bytes.toString('latin1')) {
      if (letter === '\u001b') {
        inWords = false;
        rest = '';
      } else if (inWords && letter === '\u001a') {
        asked.push(`words:${rest}`);
        inWords = false;
        rest = '';
        answer('words');
      } else if (!inWords && letter === '\r') {
        const command = rest;
        rest = '';
        asked.push(command);
        answer(command);
      } else rest += letter;
    }
  });
  for (let waited = 0; waited < 300 && !existsSync(port); waited += 1) await sleep(10);
  const channel = gsmChannel({
    port,
    open: linesAt(115_200),
    sim,
    times,
    toGsm7: (text) => text,
    came: (text) => came.push(text),
  });
  try {
    const die = (): void => void socat.kill('SIGKILL');
    return await use({ channel, asked, came, say, die });
  } finally {
    await channel.close();
    socat.kill('SIGKILL');
    if (socat.exitCode === null && socat.signalCode === null) await once(socat, 'exit');
    await rm(folder, { recursive: true, force: true });
  }
};

export const messageOf = (form: Form, text = 'No water since 13:42.'): Message => ({
  id: 1,
  form,
  to: { name: 'Ana', phone: '+351912000001', email: null },
  text,
  call: null,
  calledAt: null,
  purpose: 'test',
});

export const neverAborted = (): AbortSignal => new AbortController().signal;
