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

export interface Asked {
  readonly command: string;
  readonly timeoutMillis: number;
  /** A bare OK without such a line is a late one, of a command before. */
  readonly needs?: RegExp;
  /** The line after such a one is the body of a text, whatever it says: a person may well have written "OK". */
  readonly bodyAfter?: RegExp;
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
/** Lines of an answer that nobody will read. */
const LINES_MAX = 400;

interface Pending extends Asked {
  readonly lines: string[];
  readonly done: (answer: Answer) => void;
  bodyNext: 'body' | 'none';
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

    const end = (answer: Answer): void => {
      const { done } = pending ?? { done: (): void => undefined };
      pending = null;
      done(answer);
    };
    const hearLine = (line: string): void => {
      const now = pending;
      if (now?.bodyNext === 'body') {
        now.bodyNext = 'none';
        now.lines.push(line);
        return;
      }
      if (line === '') return;
      if (
        /^(?:\+CMTI:|\+CMT:|\+CDS|RING|\+CRING|\+CLIP:|\^|\*PSUTTZ|\+CUSD:|Call Ready|SMS Ready)/.test(line)
      ) {
        unasked(line);
        return;
      }
      if (now === null) {
        unasked(line);
        return;
      }
      if (line === now.command) return;
      if (ERROR.test(line)) {
        end({ kind: 'error', says: line });
        return;
      }
      if (line === 'OK') {
        if (now.needs !== undefined && !now.lines.some((each) => now.needs?.test(each) === true)) return;
        end({ kind: 'ok', lines: now.lines });
        return;
      }
      if (now.lines.length < LINES_MAX) now.lines.push(line);
      if (now.bodyAfter?.test(line) === true) now.bodyNext = 'body';
    };

    const line: Line = open(port, {
      opened: () => {
        opened(dialog);
      },
      heard: (bytes) => {
        lastHeard = performance.now();
        for (const each of lines.take(bytes)) hearLine(each);
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
          bodyNext: 'none',
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
