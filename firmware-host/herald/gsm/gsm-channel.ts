import { setTimeout as sleep } from 'node:timers/promises';
import type { OpenLine } from '../../devices/line.ts';
import { failed, sent, type Message, type Sent } from '../../../src/delivery/message.ts';
import type { Channel } from '../channel.ts';
import { openDialog, type Answer, type Dialog } from './at-dialog.ts';
import { emptiedInbox, type HandedOn, type TextCame } from './gsm-inbox.ts';
import { textBytes } from './gsm-letters.ts';
import { madeReady, resynchronised, type GsmTimes, type SimPin } from './gsm-ready.ts';
import { rung } from './gsm-ring.ts';
import { errorWords, isUseless } from './gsm-words.ts';

export interface GsmAsked {
  readonly port: string;
  readonly open: OpenLine;
  readonly sim: SimPin;
  readonly times: GsmTimes;
  /** Every letter in the modem's alphabet, none that counts twice. */
  readonly toGsm7: (text: string) => string;
  readonly came: (text: TextCame) => void;
}

const HUNG = 'the modem hangs and was told to start anew; if that does not help, pull it out and put it back';
const END_OF_WORDS = 0x1a;
/** The inbox is read again when a text comes meanwhile; a body that only looks like such news does not keep it at that. */
const PASSES_MAX = 3;

/** A GSM modem at a serial port: texts (3GPP TS 27.005, text mode) and ringing (27.007). One thing at a time. */
export const gsmChannel = ({ port, open, sim, times, toGsm7, came }: GsmAsked): Channel => {
  let dialog: Dialog | null = null;
  /** Something was broken off, or its end was never heard. */
  let inDoubt = true;
  let closing = false;
  let readAgain = false;
  let isReading = false;
  /** How often the modem has told of a text that came in. */
  let told = 0;
  let sendsWaiting = 0;
  const handedOn: HandedOn = new Map();
  let queue: Promise<unknown> = Promise.resolve();

  const unasked = (line: string): void => {
    if (!line.startsWith('+CMTI:')) return;
    told += 1;
    if (!isReading) readSoon();
  };
  const readSoon = (): void => {
    if (readAgain || closing) return;
    readAgain = true;
    void inTurn(async () => {
      readAgain = false;
      if (dialog === null) return;
      const at = inDoubt ? await usable() : dialog;
      if (typeof at !== 'string') await inbox(at, () => true);
    });
  };
  /** Null, or why texts may be left unread. */
  const inbox = async (at: Dialog, isWanted: () => boolean): Promise<string | null> => {
    const mayGoOn = (): boolean => sendsWaiting === 0 && !closing && isWanted();
    for (let pass = 1; ; pass += 1) {
      const before = told;
      isReading = true;
      const emptied = await emptiedInbox({ dialog: at, times, handedOn, came, mayGoOn });
      isReading = false;
      const another = told > before && pass < PASSES_MAX;
      if (emptied.kind === 'failed' && emptied.dialog === 'in-doubt') inDoubt = true;
      else if (another && mayGoOn()) continue;
      else if (another || emptied.kind === 'left') readSoon();
      return emptied.kind === 'failed' ? emptied.why : null;
    }
  };
  const inTurn = <Result>(work: () => Promise<Result>): Promise<Result> => {
    const result = queue.then(work);
    queue = result.catch(() => undefined);
    return result;
  };
  const letGo = async (): Promise<void> => {
    const old = dialog;
    dialog = null;
    inDoubt = true;
    await old?.close();
  };
  /** 27.007, 8.2: a modem that hangs starts anew, and its port may go and come back. */
  const restartedModem = async (at: Dialog): Promise<void> => {
    await at.ask({ command: 'AT+CFUN=1,1', timeoutMillis: times.commandMillis });
    await letGo();
    await sleep(times.restartMillis);
  };

  const usable = async (): Promise<Dialog | string> => {
    if (dialog?.lost() !== null) await letGo();
    if (dialog === null) {
      const found = await openDialog(open, port, unasked);
      if ('why' in found) return found.why;
      dialog = found;
    }
    const ready = await madeReady(dialog, sim, times);
    switch (ready.kind) {
      case 'ready':
        inDoubt = false;
        return dialog;
      case 'not-ready':
        return ready.why;
      case 'hung':
        await restartedModem(dialog);
        return HUNG;
    }
  };

  const afterWords = async (at: Dialog, answer: Answer): Promise<Sent> => {
    switch (answer.kind) {
      case 'ok':
        return sent('taken by the network');
      case 'error':
        return failed(errorWords(answer.says), isUseless(answer.says) ? 'useless' : 'later');
      case 'lost':
        return failed(answer.why);
      case 'prompt':
        return failed('the modem asks for the words twice');
      case 'silent': {
        inDoubt = true;
        const awake = await resynchronised(at, times);
        if (awake.kind === 'hung') {
          await restartedModem(at);
          return failed(HUNG);
        }
        return failed('the network did not answer; the text may have gone out all the same');
      }
    }
  };

  const texted = async (at: Dialog, phone: string, text: string): Promise<Sent> => {
    const timeoutMillis = times.commandMillis;
    const asked = await at.ask({ command: `AT+CMGS="${phone}"`, timeoutMillis, needs: /^\+CMGS:/ });
    if (asked.kind !== 'prompt') return afterWords(at, asked);
    return afterWords(
      at,
      await at.ask({
        command: '',
        raw: Uint8Array.from([...textBytes(toGsm7(text)), END_OF_WORDS]),
        timeoutMillis: times.networkMillis,
        needs: /^\+CMGS:/,
      }),
    );
  };

  const carried = async ({ form, to, text }: Message, signal: AbortSignal): Promise<Sent> => {
    const phone = to?.phone ?? null;
    if (phone === null) return failed('no phone number', 'useless');
    const at = await usable();
    if (typeof at === 'string') return failed(at);
    if (signal.aborted) return failed('no longer wanted');
    if (form !== 'ring') return texted(at, phone, text);
    const ring = await rung(at, phone, times, signal);
    if (ring !== 'hung') return ring;
    await restartedModem(at);
    return failed(HUNG);
  };

  return {
    name: 'modem',
    forms: ['ring', 'text'],
    most: 1,
    send: (message, signal) => {
      sendsWaiting += 1;
      return inTurn(async () => {
        sendsWaiting -= 1;
        return signal.aborted ? failed('no longer wanted') : carried(message, signal);
      });
    },
    check: (signal) =>
      inTurn(async () => {
        if (signal.aborted) return failed('no longer wanted');
        const at = await usable();
        if (typeof at === 'string') return failed(at);
        const why = await inbox(at, () => !signal.aborted);
        return why === null ? sent('in a network') : failed(why);
      }),
    close: async () => {
      closing = true;
      await letGo();
    },
  };
};
