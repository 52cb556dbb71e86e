import { afterSeconds } from '../../../src/time/instant.ts';
import type { Line, OpenLine } from '../line.ts';
import type { Timers } from '../timers.ts';
import { boardMessageIn, type BoardMessage, type Hello } from './board-message.ts';
import { FRAME_BYTES_MAX, frameIn, KEEPER_SYSEX } from './frame.ts';
import { bytesOf, type HostMessage } from './host-message.ts';
import { AGAIN_MILLIS, questionOf, seqAfter, type Question } from './question.ts';

/** Question and answer with the keeper behind one line, for commands that drive no plan. */
export interface Dialogue {
  readonly hello: Hello;
  /** Says it until it is answered. @throws DialogueFailure when nothing answers */
  readonly ask: (message: HostMessage) => Promise<BoardMessage>;
  readonly close: () => Promise<void>;
}

/** The board did not answer, or the line went: what the world does. */
export class DialogueFailure extends Error {
  override readonly name = 'DialogueFailure';
}

/** Opening the port resets most boards; a bootloader then waits up to two seconds before the firmware speaks. */
const HELLO_SECONDS = 8;
/** Six times said, nothing heard. */
const ANSWER_SECONDS = 2;
const SYSEX_START = 0xf0;
const SYSEX_END = 0xf7;
/** Each byte of a frame as two, after the sysex id. */
const SYSEX_DATA_MAX = 1 + 2 * FRAME_BYTES_MAX;

/** Finds keeper frames in the bytes of a line; whatever else the board says is left out. */
const frameFinder = (found: (seq: number, message: BoardMessage) => void): ((bytes: Uint8Array) => void) => {
  let data: number[] | null = null;
  const end = (): void => {
    const [id, ...rest] = data ?? [];
    data = null;
    const frame = id === KEEPER_SYSEX ? frameIn(rest) : null;
    const message = frame === null ? null : boardMessageIn(frame);
    if (frame !== null && message !== null) found(frame.seq, message);
  };
  return (bytes) => {
    for (const byte of bytes) {
      if (byte === SYSEX_START) data = [];
      else if (byte === SYSEX_END) end();
      else if (byte >= 0x80 || (data?.length ?? 0) > SYSEX_DATA_MAX) data = null;
      else data?.push(byte);
    }
  };
};

interface Waiting extends Question {
  readonly answered: (message: BoardMessage) => void;
  readonly failed: (failure: DialogueFailure) => void;
}

/**
 * Opens a line that a person has named and says hello until the keeper answers.
 * @throws DialogueFailure when the line does not open, or no board of this project is behind it
 */
export const openDialogue = async (open: OpenLine, name: string, timers: Timers): Promise<Dialogue> => {
  let waiting: Waiting | null = null;
  let lost: string | null = null;
  let seq = 0;

  const line: Line = open(name, {
    opened: () => undefined,
    heard: frameFinder((answerSeq, message) => {
      if (waiting === null || questionOf([waiting], answerSeq, message) === null) return;
      const { answered } = waiting;
      waiting = null;
      answered(message);
    }),
    lost: (why) => {
      lost = why;
      waiting?.failed(new DialogueFailure(`${name}: ${why}`));
    },
  });

  const askFor = (message: HostMessage, seconds: number): Promise<BoardMessage> =>
    new Promise((answer, fail) => {
      if (lost !== null) {
        fail(new DialogueFailure(`${name}: ${lost}`));
        return;
      }
      const now = timers.now();
      const until = afterSeconds(now, seconds);
      seq = seqAfter(seq);
      const bytes = bytesOf(seq, message);
      const repeat = timers.setInterval(() => {
        if (timers.now() < until) line.write(bytes);
        else waiting?.failed(new DialogueFailure(`${name}: the board does not answer`));
      }, AGAIN_MILLIS);
      const over = (): void => {
        waiting = null;
        timers.clearInterval(repeat);
      };
      waiting = {
        seq,
        message,
        askedAt: now,
        sentAt: now,
        missing: 'say-again',
        answered: (said) => {
          over();
          answer(said);
        },
        failed: (failure) => {
          over();
          fail(failure);
        },
      };
      line.write(bytes);
    });

  try {
    const hello = await askFor({ kind: 'hello' }, HELLO_SECONDS);
    if (hello.kind !== 'hello') throw new DialogueFailure(`${name}: the board answers something else`);
    return { hello, ask: (message) => askFor(message, ANSWER_SECONDS), close: line.close };
  } catch (error) {
    await line.close();
    throw error;
  }
};
