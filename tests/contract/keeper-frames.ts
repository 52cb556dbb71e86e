import { frameIn, KEEPER_SYSEX, sysexOf, type Frame } from '../../firmware-host/devices/keeper/frame.ts';
import { HOST_TYPE } from '../../firmware-host/devices/keeper/host-message.ts';
import type { BenchBoard } from './bench-board.ts';

const SYSEX_START = 0xf0;
const SYSEX_END = 0xf7;
/** Of docs/board-protocol.md. */
const HELLO = 0x41;

/** Keeper frames among the bytes of a line. */
export const framesIn = (bytes: readonly number[]): readonly Frame[] => {
  const frames: Frame[] = [];
  for (let at = 0; at < bytes.length; at += 1) {
    if (bytes[at] !== SYSEX_START || bytes[at + 1] !== KEEPER_SYSEX) continue;
    const end = bytes.indexOf(SYSEX_END, at);
    const frame = end === -1 ? null : frameIn(bytes.slice(at + 2, end));
    if (frame !== null) frames.push(frame);
  }
  return frames;
};

/** How often a board was asked for its pump. */
export const claimsOf = ({ heard }: BenchBoard): number =>
  framesIn(heard).filter(({ type }) => type === HOST_TYPE.claim).length;

/** The same board with another major number of the protocol in its hello, as a later firmware would say it. */
export const speakingMajor = <Board extends BenchBoard>(board: Board, major: number): Board => {
  let message: number[] = [];
  const said = (bytes: readonly number[]): readonly number[] => {
    const [frame] = framesIn(bytes);
    if (frame?.type !== HELLO) return bytes;
    return [...sysexOf({ ...frame, body: Uint8Array.of(major, ...frame.body.slice(1)) })];
  };
  return {
    ...board,
    peer: {
      ...board.peer,
      take: () => {
        const passed: number[] = [];
        for (const byte of board.peer.take()) {
          if (message.length === 0 && byte !== SYSEX_START) {
            passed.push(byte);
            continue;
          }
          message.push(byte);
          if (byte !== SYSEX_END) continue;
          passed.push(...said(message));
          message = [];
        }
        return Uint8Array.from(passed);
      },
    },
  };
};
