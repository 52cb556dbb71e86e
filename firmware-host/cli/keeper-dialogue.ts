import type { BoardMessage } from '../devices/keeper/board-message.ts';
import { DialogueFailure, openDialogue, type Dialogue } from '../devices/keeper/dialogue.ts';
import { PROTOCOL_MAJOR } from '../devices/keeper/hand-shake.ts';
import type { HostMessage } from '../devices/keeper/host-message.ts';
import type { KeeperStatus } from '../devices/keeper/status.ts';
import type { LineCandidate } from '../devices/line.ts';
import { serialLines } from '../devices/serial-lines.ts';
import { realTimers } from '../devices/timers.ts';
import { EXIT } from './exit-code.ts';
import { Refusal } from './refusal.ts';

/** The port that a person named; a board that is flashed, tested or adopted is never looked for. */
export const namedPort = (port: string): string => {
  if (port !== 'auto' && port !== 'demo') return port;
  throw new Refusal(
    `--board: found ${port}; name the port of the very board, such as /dev/ttyACM0. See: rillkeeper board list`,
    EXIT.usage,
  );
};

/** What to do where nobody was reached: the words of `serial-lines.ts` tell which it was. */
const notReachedHint = (why: string): string => {
  if (why.includes('no such port') || why.includes('no serial port'))
    return 'See which ports there are: rillkeeper board list';
  if (why.includes('another program'))
    return 'End the run on this board first: one program at a time has the port.';
  if (why.includes('no right')) return 'Then try again.';
  return 'Look at its cable and the lamp of the board. A board with stock firmware has no keeper; flash it: rillkeeper board flash FARM --board PORT';
};

export const candidateAt = async (port: string): Promise<LineCandidate> => {
  const found = await serialLines.candidates();
  return found.find(({ name }) => name === port) ?? { name: port, serialNumber: null, says: '' };
};

/**
 * Runs `work` on the keeper at a port and frees the port.
 * @throws Refusal when no board of this project answers, or it speaks another protocol
 */
export const withKeeper = async <Result>(
  port: string,
  work: (dialogue: Dialogue) => Promise<Result>,
): Promise<Result> => {
  let dialogue: Dialogue | null = null;
  try {
    dialogue = await openDialogue(serialLines.open, port, realTimers);
    const { protocol, firmware } = dialogue.hello;
    if (protocol.major !== PROTOCOL_MAJOR) {
      throw new Refusal(
        `${port}: the board's firmware ${firmware.major}.${firmware.minor} speaks keeper protocol ${protocol.major}, this program ${PROTOCOL_MAJOR}. Flash it: rillkeeper board flash FARM --board ${port}`,
        EXIT.noBoard,
      );
    }
    return await work(dialogue);
  } catch (error) {
    if (!(error instanceof DialogueFailure)) throw error;
    const hint = dialogue === null ? ` ${notReachedHint(error.message)}` : '';
    throw new Refusal(`${error.message}.${hint}`, EXIT.noBoard);
  } finally {
    await dialogue?.close();
  }
};

const unexpected = (message: BoardMessage): Refusal =>
  new Refusal(`The board answers ${message.kind} to another question.`, EXIT.noBoard);

export const statusOf = async ({ ask }: Dialogue): Promise<KeeperStatus> => {
  const answer = await ask({ kind: 'status' });
  if (answer.kind !== 'status') throw unexpected(answer);
  return answer.status;
};

/** The epoch of an own claim. @throws Refusal when another has the pump */
export const claimed = async (dialogue: Dialogue): Promise<number> => {
  const { epoch } = await statusOf(dialogue);
  const answer = await dialogue.ask({ kind: 'claim', epoch });
  if (answer.kind === 'ack' && answer.result === 'done') return answer.value;
  throw new Refusal(
    `The board does not give its pump away (${answer.kind === 'ack' ? answer.result : answer.kind}). Try again in a minute.`,
    EXIT.noBoard,
  );
};

/** What the board made of an order. */
export const ordered = async ({ ask }: Dialogue, message: HostMessage): Promise<string> => {
  const answer = await ask(message);
  if (answer.kind !== 'ack') throw unexpected(answer);
  return answer.result;
};
