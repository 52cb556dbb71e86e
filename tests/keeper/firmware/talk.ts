import { boardMessageIn, type BoardMessage } from '../../../firmware-host/devices/keeper/board-message.ts';
import { frameIn, KEEPER_SYSEX } from '../../../firmware-host/devices/keeper/frame.ts';
import { bytesOf, type HostMessage } from '../../../firmware-host/devices/keeper/host-message.ts';
import type { KeeperStatus } from '../../../firmware-host/devices/keeper/status.ts';
import type { KeptBoard } from './kept-board.ts';

const SYSEX_START = 0xf0;
const SYSEX_END = 0xf7;
/** Far more than a question and its answer take on the line; a table put writes its bytes for 3.4 ms each. */
const PATIENCE_SECONDS = 1;
const LOOK_SECONDS = 0.002;
const SEQ_NUMBERS = 128;

/** Keeper messages among all that a board said, in their order. */
export const messagesIn = (
  said: readonly number[],
): readonly { readonly seq: number; readonly told: BoardMessage }[] =>
  String.fromCharCode(...said)
    .split(String.fromCharCode(SYSEX_START))
    .flatMap((piece) => {
      const bytes = Array.from(piece, (letter) => letter.charCodeAt(0));
      const end = bytes.indexOf(SYSEX_END);
      if (bytes[0] !== KEEPER_SYSEX || end < 0) return [];
      const frame = frameIn(bytes.slice(1, end));
      const told = frame === null ? null : boardMessageIn(frame);
      return frame === null || told === null ? [] : [{ seq: frame.seq, told }];
    });

/** One host that asks the next thing when it has its answer, or has waited in vain. */
export interface Talk {
  /** `looked` is called every 2 ms of the wait. */
  readonly ask: (message: HostMessage, looked?: () => void) => BoardMessage | null;
  /** @throws Error when no status came */
  readonly status: () => KeeperStatus;
  /** Claims with the epoch that holds, and gives the new one. */
  readonly claim: () => number;
  readonly beat: (epoch: number, minute?: number) => void;
}

export const talkWith = (board: KeptBoard): Talk => {
  let seq = 0;
  const ask = (message: HostMessage, looked?: () => void): BoardMessage | null => {
    seq = (seq + 1) % SEQ_NUMBERS;
    board.said();
    board.hear(bytesOf(seq, message));
    const heard: number[] = [];
    const end = board.now() + PATIENCE_SECONDS;
    while (board.now() < end && board.chip.state() !== 'off') {
      board.pass(LOOK_SECONDS);
      looked?.();
      const said = board.said();
      heard.push(...said);
      if (!said.includes(SYSEX_END)) continue;
      const answer = messagesIn(heard).find((told) => told.seq === seq);
      if (answer !== undefined) return answer.told;
    }
    return null;
  };
  const status = (): KeeperStatus => {
    const told = ask({ kind: 'status' });
    if (told?.kind !== 'status') throw new Error('the board told no status');
    return told.status;
  };
  return {
    ask,
    status,
    claim: () => {
      const told = ask({ kind: 'claim', epoch: status().epoch });
      if (told?.kind !== 'ack' || told.result !== 'done')
        throw new Error('the board let nobody claim the pump');
      return told.value;
    },
    beat: (epoch, minute) => {
      ask({
        kind: 'heartbeat',
        epoch,
        leaseSeconds: 10,
        time: minute === undefined ? 'unknown' : { minute, second: 0 },
        signals: { buzzer: 'silent', lamp: 'dark' },
      });
    },
  };
};
