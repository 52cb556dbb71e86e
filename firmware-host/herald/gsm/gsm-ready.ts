import type { Answer, Dialog } from './at-dialog.ts';
import { errorWords, isPinRefused, isPukWanted, registrationWords } from './gsm-words.ts';

/** What the card asks for before the modem can do anything; a wrong PIN is given once and never again. */
export interface SimPin {
  readonly pin: string | null;
  /** Whether the card has refused this PIN, also before a restart: the third time blocks it. */
  readonly wasRefused: () => boolean;
  readonly refused: () => void;
}

export interface GsmTimes {
  /** For a command that the modem answers by itself. */
  readonly commandMillis: number;
  /** For one that needs the network. */
  readonly networkMillis: number;
  /** So long the phone rings. */
  readonly ringMillis: number;
  readonly pollMillis: number;
  /** Silence that shows that the modem has said all it had to say. */
  readonly quietMillis: number;
  /** After a reset the modem starts anew. */
  readonly restartMillis: number;
}

export const GSM_TIMES: GsmTimes = {
  commandMillis: 5000,
  // Fault 55: no answer within 60 s is a hang. A little less, so that the reset is under way by then.
  networkMillis: 45_000,
  ringMillis: 25_000,
  pollMillis: 2000,
  quietMillis: 200,
  restartMillis: 20_000,
};

export type Ready =
  | { readonly kind: 'ready' }
  | { readonly kind: 'not-ready'; readonly why: string }
  | { readonly kind: 'hung' };

const notReady = (answer: Answer): Ready => {
  switch (answer.kind) {
    case 'silent':
      return { kind: 'hung' };
    case 'lost':
      return { kind: 'not-ready', why: answer.why };
    case 'error':
      return { kind: 'not-ready', why: errorWords(answer.says) };
    case 'ok':
    case 'prompt':
      return { kind: 'not-ready', why: 'the modem answers what was not asked' };
  }
};

const PIN_REFUSED =
  'the SIM card has refused this PIN and is not tried again, since a third wrong PIN blocks it: correct RILLKEEPER_SIM_PIN, delete sim-pin-refused in the state folder, restart the host';

const PIN_STATE = /^\+CPIN: *(.*)$/;

/** 3GPP TS 27.007, 8.3 */
const unlocked = async (dialog: Dialog, sim: SimPin, times: GsmTimes): Promise<Ready> => {
  const asked = { command: 'AT+CPIN?', timeoutMillis: times.commandMillis, needs: PIN_STATE };
  const answer = await dialog.ask(asked);
  if (answer.kind !== 'ok') return notReady(answer);
  const state = answer.lines.map((line) => PIN_STATE.exec(line)?.[1]).find((found) => found !== undefined);
  if (state === 'READY') return { kind: 'ready' };
  if (state !== 'SIM PIN') {
    return { kind: 'not-ready', why: `the SIM card is locked (${state ?? 'unknown'}); a phone can free it` };
  }
  if (sim.pin === null) {
    return {
      kind: 'not-ready',
      why: 'the SIM card asks for its PIN: set RILLKEEPER_SIM_PIN, or take the PIN off with a phone',
    };
  }
  if (sim.wasRefused()) return { kind: 'not-ready', why: PIN_REFUSED };
  const entered = await dialog.ask({ command: `AT+CPIN="${sim.pin}"`, timeoutMillis: times.commandMillis });
  if (entered.kind === 'ok') return { kind: 'ready' };
  if (entered.kind !== 'error' || !isPinRefused(entered.says)) return notReady(entered);
  sim.refused();
  // One that asks for its PUK now is freed first.
  return isPukWanted(entered.says) ? notReady(entered) : { kind: 'not-ready', why: PIN_REFUSED };
};

/** Makes a modem that may be in any state talk sense again: out of the words of a text, no call, no late answers. */
export const resynchronised = async (dialog: Dialog, times: GsmTimes): Promise<Ready> => {
  dialog.say('\u001b');
  if (!(await dialog.quiet(times.quietMillis, times.commandMillis))) {
    return {
      kind: 'not-ready',
      why: 'what is at this port never falls silent; it is no modem, or the port is wrong',
    };
  }
  for (let tries = 0; tries < 2; tries += 1) {
    const answer = await dialog.ask({ command: 'AT', timeoutMillis: times.commandMillis });
    if (answer.kind === 'lost') return notReady(answer);
    if (answer.kind !== 'silent') {
      await dialog.quiet(times.quietMillis, times.commandMillis);
      return { kind: 'ready' };
    }
  }
  return { kind: 'hung' };
};

/**
 * 3GPP TS 27.005, 3.1, `<fo>` 17 and `<vp>` 143: for 12 h the network tries to bring a text. That is as long as a phone is off
 * over a night, for what is told only once, and no longer than a bare clock time such as 13:42 means one moment only. The
 * rest is the default alphabet, whatever an earlier owner of the modem has set.
 */
const TEXT_KEPT = 'AT+CSMP=17,143,0,0';

/** `+CPMS: "ME",3,50,"ME",3,50,"SM",0,20` (27.005, 3.2.2): where texts are read, and where one that comes in is put. */
const MEMORIES = /^\+CPMS: *"(\w+)",[^"]*"\w+",[^"]*"(\w+)"/;

/** Texts are read where the modem puts them; one that does not tell, or will not, is read where it is. */
const readWherePut = async (dialog: Dialog, timeoutMillis: number): Promise<Answer> => {
  const asked = await dialog.ask({ command: 'AT+CPMS?', timeoutMillis });
  const lines = asked.kind === 'ok' ? asked.lines : [];
  const [, read, put] = lines.map((line) => MEMORIES.exec(line)).find((found) => found !== null) ?? [];
  if (put === undefined || put === read) return asked;
  return dialog.ask({ command: `AT+CPMS="${put}"`, timeoutMillis });
};

/** Sets the modem up and finds out whether it is in a network. */
export const madeReady = async (dialog: Dialog, sim: SimPin, times: GsmTimes): Promise<Ready> => {
  const awake = await resynchronised(dialog, times);
  if (awake.kind !== 'ready') return awake;
  const timeoutMillis = times.commandMillis;
  // Echo off and errors by number; not every modem takes both, and none is needed.
  for (const command of ['ATE0', 'AT+CMEE=1']) {
    const answer = await dialog.ask({ command, timeoutMillis });
    if (answer.kind === 'silent' || answer.kind === 'lost') return notReady(answer);
  }
  const open = await unlocked(dialog, sim, times);
  if (open.kind !== 'ready') return open;
  for (const command of ['AT+CMGF=1', 'AT+CSCS="GSM"']) {
    const answer = await dialog.ask({ command, timeoutMillis });
    if (answer.kind !== 'ok') return notReady(answer);
  }
  // Told of each text that comes in (27.005, 3.4.1); where a modem will not, the looks find them.
  for (const command of [TEXT_KEPT, 'AT+CNMI=2,1,0,0,0']) {
    const answer = await dialog.ask({ command, timeoutMillis });
    if (answer.kind === 'silent' || answer.kind === 'lost') return notReady(answer);
  }
  const memories = await readWherePut(dialog, timeoutMillis);
  if (memories.kind === 'silent' || memories.kind === 'lost') return notReady(memories);
  const network = await dialog.ask({ command: 'AT+CREG?', timeoutMillis, needs: /^\+CREG:/ });
  if (network.kind !== 'ok') return notReady(network);
  const why = registrationWords(network.lines);
  return why === null ? { kind: 'ready' } : { kind: 'not-ready', why };
};
