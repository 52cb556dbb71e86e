import type { Line, OpenLine } from '../../devices/line.ts';
import { atLines } from './at-lines.ts';

/** How a command ended. */
export type Answer =
  | { readonly kind: 'ok'; readonly lines: readonly string[] }
  | { readonly kind: 'prompt' }
  /** What the modem says instead: `ERROR`, `+CMS ERROR: 38`, `NO CARRIER`. */
  | { readonly kind: 'error'; readonly says: string }
  | { readonly kind: 'silent' }
  | { readonly kind: 'lost'; readonly why: string };

/**
 * A person may well have written "OK". The line after such a one is a body, whatever it says; and since a body may have
 * more lines, an end of the command counts from there on only when silence follows it.
 */
export interface Bodies {
  readonly after: RegExp;
  readonly quietMillis: number;
}

export interface Asked {
  readonly command: string;
  readonly timeoutMillis: number;
  /** A bare OK without such a line is a late one, of a command before. */
  readonly needs?: RegExp;
  /** Where bodies of texts stand in the answer. */
  readonly bodies?: Bodies;
  /** For the words of a text: no end of line is put behind them. */
  readonly raw?: Uint8Array;
}

export interface Dialog {
  /** One at a time; whoever asks waits for the one before. */
  readonly ask: (asked: Asked) => Promise<Answer>;
  /** Out of band, with no answer: ESC leaves the words of a text. */
  readonly say: (bytes: string) => void;
  /** Nothing said for so long; false when the modem never falls silent. */
  readonly quiet: (millis: number, mostMillis: number) => Promise<boolean>;
  readonly lost: () => string | null;
  readonly close: () => Promise<void>;
}

/** 3GPP TS 27.007, 4.1 and V.250, 5.7.1: the ends of a command. */
const ERROR =
  /^(?:ERROR|\+CM[ES] ERROR: .*|NO CARRIER|BUSY|NO ANSWER|NO DIALTONE|NO DIAL TONE|COMMAND NOT SUPPORT)$/;
/** What a modem says by itself, also in the middle of an answer. */
const UNASKED = /^(?:\+CMTI:|\+CMT:|\+CDS|RING|\+CRING|\+CLIP:|\^|\*PSUTTZ|\+CUSD:|Call Ready|SMS Ready)/;
/** Lines of an answer; a full card of 255 texts has fewer, unless somebody fills it with short lines. */
export const ANSWER_LINES_MAX = 4000;

interface Pending extends Asked {
  readonly lines: string[];
  readonly done: (answer: Answer) => void;
  place: 'before-bodies' | 'at-body' | 'among-bodies';
  /** Heard among bodies: the end, if nothing follows. */
  ending: Answer | null;
}

/** Talks with a modem: a command, its lines, its end. Lines that it says by itself go to `unasked`. */
export const openDialog = (
  open: OpenLine,
  port: string,
  unasked: (line: string) => void,
): Promise<Dialog | { readonly why: string }> =>
  new Promise((opened) => {
    const lines = atLines();
    let pending: Pending | null = null;
    let lostWhy: string | null = null;
    let lastHeard = performance.now();
    let queue: Promise<unknown> = Promise.resolve();
    let quiet: NodeJS.Timeout | undefined;

    const end = (answer: Answer): void => {
      const { done } = pending ?? { done: (): void => undefined };
      pending = null;
      clearTimeout(quiet);
      done(answer);
    };
    const keep = (now: Pending, line: string): void => {
      if (now.lines.length < ANSWER_LINES_MAX) now.lines.push(line);
    };
    const hearEnd = (now: Pending, answer: Answer): void => {
      if (now.place === 'before-bodies') end(answer);
      else now.ending = answer;
    };
    const hearLine = (line: string): void => {
      const now = pending;
      if (now?.place === 'at-body') {
        now.place = 'among-bodies';
        keep(now, line);
        return;
      }
      if (line === '') return;
      if (now === null || UNASKED.test(line)) {
        unasked(line);
        return;
      }
      if (line === now.command) return;
      if (ERROR.test(line)) {
        hearEnd(now, { kind: 'error', says: line });
        return;
      }
      if (line === 'OK') {
        if (now.needs !== undefined && !now.lines.some((each) => now.needs?.test(each) === true)) return;
        hearEnd(now, { kind: 'ok', lines: now.lines });
        return;
      }
      now.ending = null;
      keep(now, line);
      if (now.bodies?.after.test(line) === true) now.place = 'at-body';
    };
    const awaitSilence = (): void => {
      clearTimeout(quiet);
      const now = pending;
      if (now?.ending == null) return;
      quiet = setTimeout(() => {
        if (pending === now && now.ending !== null) end(now.ending);
      }, now.bodies?.quietMillis);
    };

    const line: Line = open(port, {
      opened: () => {
        opened(dialog);
      },
      heard: (bytes) => {
        lastHeard = performance.now();
        for (const each of lines.take(bytes)) hearLine(each);
        awaitSilence();
        if (lines.isPrompt() && pending?.command.startsWith('AT+CMGS') === true) {
          lines.clear();
          end({ kind: 'prompt' });
        }
      },
      lost: (why) => {
        lostWhy = why;
        end({ kind: 'lost', why });
        opened({ why });
      },
    });

    const askNow = (asked: Asked): Promise<Answer> =>
      new Promise((done) => {
        if (lostWhy !== null) {
          done({ kind: 'lost', why: lostWhy });
          return;
        }
        const timer = setTimeout(() => {
          if (pending === mine) end({ kind: 'silent' });
        }, asked.timeoutMillis);
        const mine: Pending = {
          ...asked,
          lines: [],
          place: 'before-bodies',
          ending: null,
          done: (answer) => {
            clearTimeout(timer);
            done(answer);
          },
        };
        pending = mine;
        line.write(asked.raw ?? Buffer.from(`${asked.command}\r`, 'latin1'));
      });

    const dialog: Dialog = {
      ask: (asked) => {
        const answer = queue.then(() => askNow(asked));
        queue = answer;
        return answer;
      },
      say: (bytes) => {
        if (lostWhy === null) line.write(Buffer.from(bytes, 'latin1'));
      },
      quiet: async (millis, mostMillis) => {
        const until = performance.now() + mostMillis;
        while (performance.now() < until) {
          const left = lastHeard + millis - performance.now();
          if (left <= 0) return true;
          await new Promise((go) => setTimeout(go, Math.min(left, until - performance.now())));
        }
        return performance.now() - lastHeard >= millis;
      },
      lost: () => lostWhy,
      close: () => {
        lostWhy ??= 'closed';
        end({ kind: 'lost', why: lostWhy });
        return line.close();
      },
    };
  });
