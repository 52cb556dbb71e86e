import type { WallMillis } from '../../../src/time/instant.ts';
import { ANSWER_LINES_MAX, type Answer, type Dialog } from './at-dialog.ts';
import { lettersOf } from './gsm-letters.ts';
import type { GsmTimes } from './gsm-ready.ts';
import { errorWords } from './gsm-words.ts';
import { sentAtIn } from './sent-at.ts';

export interface TextCame {
  readonly from: string;
  readonly text: string;
  /** When the service centre took it, by its own clock; undefined where the modem does not say. */
  readonly sentAt: WallMillis | undefined;
}

/**
 * What was handed on and may still stand in the modem, by its number there. Kept by whoever asks, from look to look.
 * `said`: the modem says that it is deleted, which the next listing shows. `untrue`: it said so, and there it was.
 */
export type HandedOn = Map<
  number,
  { readonly words: string; readonly deletion: 'refused' | 'said' | 'untrue' }
>;

export interface InboxAsked {
  readonly dialog: Dialog;
  readonly times: Pick<GsmTimes, 'commandMillis' | 'quietMillis'>;
  readonly handedOn: HandedOn;
  readonly came: (text: TextCame) => void;
  /** Asked between two texts; a call for help does not wait for the inbox. */
  readonly mayGoOn: () => boolean;
}

export type Emptied =
  | { readonly kind: 'empty' }
  /** There is more, and nothing is wrong. */
  | { readonly kind: 'left' }
  /** In doubt: the end of an answer was never heard. */
  | { readonly kind: 'failed'; readonly why: string; readonly dialog: 'sound' | 'in-doubt' };

/**
 * `+CMGL: 3,"REC UNREAD","+351912000001",,"26/07/14,13:42:00+04"` (3GPP TS 27.005, 3.4.2). A line of a body may look the
 * same, so it gives no more than a number under which there may be a text.
 */
const LISTED = /^\+CMGL: *(\d{1,5})\b/;
/** `+CMGR: "REC UNREAD","+351912000001",,"26/07/14,13:42:00+04"` (3.4.3): one text, so the first is the only one. */
const RECEIVED = /^\+CMGR: *"REC (?:UN)?READ" *, *"([^"]*)"/;
/** A draft, one that was sent from this card, or the report of one: nobody says anything by it. */
const NOBODYS = /^\+CMGR: *"(?:STO (?:UN)?SENT"|REC (?:UN)?READ" *, *\d)/;
const STATUS = /"[^"]*"/;
/** Without it, the next text in the same place could not be told from this one. */
const TIME = /\d\d:\d\d:\d\d/;
/** News of the modem that squeezes in before the answer. */
const NEWS = /^[+$*](?!CMG)/;

/** Texts of one look; more wait for the next, and none is longer than one that a person would send here. */
const TEXTS_MAX = 30;
/** More than any card or modem holds. What is beyond it waits: handed on, it could not be told from what is new. */
const HANDED_ON_MAX = 1000;

const failedBy = (answer: Answer): Emptied => {
  const why = ((): string => {
    switch (answer.kind) {
      case 'error':
        return errorWords(answer.says);
      case 'lost':
        return answer.why;
      case 'silent':
        return 'the modem did not answer in time';
      case 'ok':
      case 'prompt':
        return 'the modem answers what was not asked';
    }
  })();
  return {
    kind: 'failed',
    why: `the texts in the modem cannot be read: ${why}`,
    dialog: answer.kind === 'error' || answer.kind === 'ok' ? 'sound' : 'in-doubt',
  };
};

const indicesIn = (lines: readonly string[]): readonly number[] => [
  ...new Set(lines.flatMap((line) => LISTED.exec(line)?.[1] ?? []).map(Number)),
];

/** Numbers to look at: what is new first, then what could not be deleted, that which has waited longest first. */
const inOrder = (lines: readonly string[], handedOn: HandedOn): readonly number[] => {
  const indices = indicesIn(lines);
  const isWhole = lines.length < ANSWER_LINES_MAX;
  for (const index of [...handedOn.keys()]) if (isWhole && !indices.includes(index)) handedOn.delete(index);
  const isStuck = (index: number): boolean => (handedOn.get(index)?.deletion ?? 'said') !== 'said';
  return [...indices.filter((index) => !isStuck(index)), ...[...handedOn.keys()].filter(isStuck)];
};

/**
 * Reads every text that the modem holds and deletes it, so that its memory never fills; the words of strangers go no
 * further than to whoever counts them. A text is handed on before it is deleted, since twice is better than never; one
 * that cannot be deleted is handed on once all the same, as an old "ok" must not acknowledge a new alarm.
 */
export const emptiedInbox = async ({
  dialog,
  times: { commandMillis: timeoutMillis, quietMillis },
  handedOn,
  came,
  mayGoOn,
}: InboxAsked): Promise<Emptied> => {
  const asked = (command: string, after: RegExp): Promise<Answer> =>
    dialog.ask({ command, timeoutMillis, bodies: { after, quietMillis } });
  const listed = await asked('AT+CMGL="ALL"', /^\+CMGL:/);
  if (listed.kind !== 'ok') return failedBy(listed);
  const unread = new Map<number, Answer>();
  const inBodies = new Set<number>();
  let notDeleted: string | null = null;
  let texts = 0;

  for (const [place, index] of inOrder(listed.lines, handedOn).entries()) {
    if (place > 0 && !mayGoOn()) return { kind: 'left' };
    if (texts === TEXTS_MAX) {
      if (notDeleted === null && unread.size === 0) return { kind: 'left' };
      break;
    }
    const read = await asked(`AT+CMGR=${index}`, /^\+CMGR:/);
    if (read.kind !== 'ok' && read.kind !== 'error') return failedBy(read);
    const lines = read.kind === 'ok' ? read.lines : [];
    const at = lines.findIndex((line) => !NEWS.test(line));
    const header = lines[at] ?? '';
    const from = RECEIVED.exec(header)?.[1];
    if (from === undefined && !NOBODYS.test(header)) {
      unread.set(index, read);
      // If that was the end of another answer, its own goes by; no number is ever one off.
      await dialog.quiet(quietMillis, timeoutMillis);
      continue;
    }
    const [body = '', ...more] = lines.slice(at + 1);
    for (const each of indicesIn([body, ...more])) inBodies.add(each);
    const words = `${header.replace(STATUS, '')}\n${body}`;
    const before = handedOn.get(index);
    const isNew = before?.words !== words;
    if (isNew && handedOn.size >= HANDED_ON_MAX) continue;
    texts += 1;
    if (isNew && from !== undefined)
      came({ from, text: lettersOf(body).slice(0, 160), sentAt: sentAtIn(header) });
    const isUntrue = before?.words === words && before.deletion !== 'refused';
    // To the end of the row.
    handedOn.delete(index);
    handedOn.set(index, { words, deletion: isUntrue ? 'untrue' : 'refused' });
    const deleted = await dialog.ask({ command: `AT+CMGD=${index}`, timeoutMillis });
    if (deleted.kind === 'error') notDeleted ??= errorWords(deleted.says);
    else if (deleted.kind !== 'ok') return failedBy(deleted);
    else if (isUntrue) notDeleted ??= 'it comes back';
    else if (TIME.test(header)) handedOn.set(index, { words, deletion: 'said' });
    else handedOn.delete(index);
  }
  if (notDeleted !== null) {
    return {
      kind: 'failed',
      why: `a text in the modem cannot be deleted, so the SIM memory may be full and take no more; empty it with a phone: ${notDeleted}`,
      dialog: 'sound',
    };
  }
  // Under a number that only a body has named there is nothing to read.
  const [missing] = [...unread].filter(([index]) => !inBodies.has(index));
  return missing === undefined ? { kind: 'empty' } : failedBy(missing[1]);
};
