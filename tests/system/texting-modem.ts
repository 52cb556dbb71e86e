import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readlinkSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { ownFolder } from './rillkeeper.ts';

export interface Text {
  readonly from: string;
  readonly body: string;
}

/** A modem that is well, behind a pseudo-terminal, with texts that the test puts into its memory. */
export interface TextingModem {
  readonly port: string;
  readonly comes: (text: Text) => void;
  /** The numbers to which a text was sent. */
  readonly sentTo: () => readonly string[];
  /** What they said, in the letters of the line. */
  readonly sentTexts: () => readonly string[];
  /** Texts that nobody has deleted yet. */
  readonly kept: () => number;
  readonly close: () => Promise<void>;
}

/** By 3GPP TS 27.005, text mode. @throws Error when socat is not installed */
export const textingModem = async (): Promise<TextingModem> => {
  const link = join(ownFolder(), 'modem');
  const child = spawn('socat', ['-', `PTY,link=${link},raw,echo=0`], { stdio: ['pipe', 'pipe', 'ignore'] });
  await Promise.race([once(child, 'spawn'), once(child, 'error')]);
  if (child.pid === undefined) throw new Error('socat is not installed: apt-get install socat');
  child.stdin.on('error', () => undefined);
  const texts = new Map<number, Text>();
  const sent: string[] = [];
  const bodies: string[] = [];
  let last = 0;
  let rest = '';
  const say = (...lines: readonly string[]): void => {
    for (const line of lines) child.stdin.write(`\r\n${line}\r\n`);
  };
  const answered = (command: string): void => {
    const to = /^AT\+CMGS="([^"]*)"$/.exec(command)?.[1];
    if (to !== undefined) {
      sent.push(to);
      child.stdin.write('\r\n> ');
      return;
    }
    if (command === 'AT+CPIN?') say('+CPIN: READY');
    if (command === 'AT+CREG?') say('+CREG: 0,1');
    if (command === 'AT+CMGL="ALL"') {
      for (const [index, { from, body }] of texts)
        say(`+CMGL: ${index},"REC UNREAD","${from}",,"26/07/14,13:42:00+04"\r\n${body}`);
    }
    const read = texts.get(Number(/^AT\+CMGR=(\d+)$/.exec(command)?.[1]));
    if (read !== undefined) say(`+CMGR: "REC READ","${read.from}",,"26/07/14,13:42:00+04"\r\n${read.body}`);
    texts.delete(Number(/^AT\+CMGD=(\d+)$/.exec(command)?.[1]));
    say('OK');
  };
  child.stdout.on('data', (bytes: Buffer) => {
    for (const letter of bytes.toString('latin1')) {
      if (letter === '\u001b') rest = '';
      else if (letter === '\u001a') {
        bodies.push(rest);
        rest = '';
        say('+CMGS: 1', 'OK');
      } else if (letter === '\r') {
        answered(rest);
        rest = '';
      } else rest += letter;
    }
  });
  while (!existsSync(link)) await sleep(10);
  return {
    port: readlinkSync(link),
    comes: (text) => {
      last += 1;
      texts.set(last, text);
      say(`+CMTI: "SM",${last}`);
    },
    sentTo: () => sent,
    sentTexts: () => bodies,
    kept: () => texts.size,
    close: async () => {
      child.kill('SIGKILL');
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    },
  };
};
