import { setTimeout as sleep } from 'node:timers/promises';
import { failed, sent, type Sent } from '../../../src/delivery/message.ts';
import type { Dialog } from './at-dialog.ts';
import type { GsmTimes } from './gsm-ready.ts';
import { errorWords } from './gsm-words.ts';

/** 3GPP TS 27.007, 7.18: `+CLCC: 1,0,3,…` is a call of ours that rings at the other end; 0 is answered, 2 dials. */
const OUR_CALL = /^\+CLCC: *\d+ *, *0 *, *(\d)/;

/** Long enough for whoever answers to know that it is real. */
const ANSWERED_MILLIS = 4000;

const hungUp = async (dialog: Dialog, times: GsmTimes): Promise<void> => {
  const answer = await dialog.ask({ command: 'AT+CHUP', timeoutMillis: times.commandMillis });
  // 27.007, 6.5: some know only the older way.
  if (answer.kind === 'error') await dialog.ask({ command: 'ATH', timeoutMillis: times.commandMillis });
};

/** The called phone is off, busy or does not answer; so is told, too, what the network does not put through for another reason. */
const THEIR_END = /^(?:BUSY|NO ANSWER|NO CARRIER)$/;

const failedBy = (says: string): Sent =>
  failed(errorWords(says), THEIR_END.test(says) ? 'their-end' : 'later');

/**
 * Rings a phone (27.007, 6.2: the semicolon makes it a voice call) and hangs up. Ringing is all: nobody speaks, and the
 * text that follows says why.
 */
export const rung = async (
  dialog: Dialog,
  phone: string,
  times: GsmTimes,
  signal: AbortSignal,
): Promise<Sent | 'hung'> => {
  const dialled = await dialog.ask({ command: `ATD${phone};`, timeoutMillis: times.networkMillis });
  if (dialled.kind === 'lost') return failed(dialled.why);
  if (dialled.kind === 'silent') return 'hung';
  if (dialled.kind !== 'ok')
    return dialled.kind === 'error' ? failedBy(dialled.says) : failed('no call was made');
  let best: 'rang' | 'unknown' | 'nothing' = 'nothing';
  const until = performance.now() + times.ringMillis;
  try {
    while (performance.now() < until && !signal.aborted) {
      await sleep(times.pollMillis);
      const calls = await dialog.ask({ command: 'AT+CLCC', timeoutMillis: times.commandMillis });
      if (calls.kind === 'lost') return failed(calls.why);
      if (calls.kind === 'silent') return 'hung';
      if (calls.kind !== 'ok') {
        // BUSY and NO CARRIER end the call; a bare ERROR is a modem that cannot list its calls.
        if (calls.kind === 'error' && /^(?:BUSY|NO )/.test(calls.says)) {
          return best === 'rang' ? sent('rang, and was turned off') : failedBy(calls.says);
        }
        best = best === 'rang' ? 'rang' : 'unknown';
        continue;
      }
      const [state] = calls.lines.flatMap((line) => OUR_CALL.exec(line)?.[1] ?? []);
      if (state === '0') {
        await sleep(Math.min(ANSWERED_MILLIS, times.ringMillis));
        return sent('rang, and was answered');
      }
      if (state === '3') best = 'rang';
      else if (state === undefined) {
        return best === 'rang'
          ? sent('rang, and was turned off')
          : failed('the call ended before the phone rang', 'their-end');
      }
    }
  } finally {
    await hungUp(dialog, times);
  }
  if (best === 'rang') return sent('rang');
  if (best === 'unknown') return sent('dialled; this modem cannot tell whether the phone rang');
  return failed('the network did not make the phone ring', 'their-end');
};
