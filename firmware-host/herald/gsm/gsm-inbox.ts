import type { Dialog } from './at-dialog.ts';
import { lettersOf } from './gsm-letters.ts';

export interface TextCame {
  readonly from: string;
  readonly text: string;
}

interface Read extends TextCame {
  readonly index: number;
}

/** `+CMGL: 3,"REC UNREAD","+351912000001",,"26/07/14,13:42:00+04"` (3GPP TS 27.005, 3.4.2). */
const LISTED = /^\+CMGL: *(\d+) *, *"[^"]*" *, *"([^"]*)"/;

/** Texts of one look; more wait for the next, and none is longer than one that a person would send here. */
const TEXTS_MAX = 30;

const readIn = (lines: readonly string[]): readonly Read[] =>
  lines.flatMap((line, place): readonly Read[] => {
    const [, index, from] = LISTED.exec(line) ?? [];
    if (index === undefined || from === undefined) return [];
    return [{ index: Number(index), from, text: lettersOf(lines[place + 1] ?? '').slice(0, 160) }];
  });

/**
 * Reads every text that the modem holds and deletes it, so that its memory never fills; the words of strangers go no
 * further than to whoever counts them. A text is handed on before it is deleted: twice is better than never.
 */
export const emptiedInbox = async (
  dialog: Dialog,
  timeoutMillis: number,
  came: (text: TextCame) => void,
): Promise<'read' | 'failed'> => {
  const listed = await dialog.ask({ command: 'AT+CMGL="ALL"', timeoutMillis, bodyAfter: /^\+CMGL:/ });
  if (listed.kind !== 'ok') return 'failed';
  for (const { index, from, text } of readIn(listed.lines).slice(0, TEXTS_MAX)) {
    came({ from, text });
    const deleted = await dialog.ask({ command: `AT+CMGD=${index}`, timeoutMillis });
    if (deleted.kind !== 'ok') return 'failed';
  }
  return 'read';
};
