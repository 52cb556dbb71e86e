import type { Dice } from '../../sim/dice.ts';
import { virtualBench } from './bench.ts';
import { SERIAL_NUMBER, stockBoard } from './bench-board.ts';
import { linkOn } from './visit.ts';

export const anyBytes = (dice: Dice, count: number): readonly number[] =>
  Array.from({ length: count }, () => Math.floor(dice() * 256));

/** Everything that a well board says to a well host in its first minute, its handshake with it. */
export const recordedMinute = async (): Promise<readonly number[]> => {
  const bench = await virtualBench();
  const { peer, digital, analog } = stockBoard();
  const said: number[] = [];
  const recorded = {
    ...peer,
    take: (): Uint8Array => {
      const bytes = peer.take();
      for (const byte of bytes) said.push(byte);
      return bytes;
    },
  };
  await bench.plug(bench.ports[0], recorded, SERIAL_NUMBER);
  const link = linkOn(bench);
  for (let second = 0; second < 60; second += 1) {
    digital.set(2 + (second % 10), second % 3 === 0 ? 1 : 0);
    analog.set(second % 6, (second * 97) % 1024);
    bench.look();
    await bench.pass(1);
  }
  await link.close();
  return said;
};

const SPOILS = ['flip', 'drop', 'double', 'splice', 'truncate'] as const;

/** A piece of what was recorded, a share of them from its beginning, with one thing wrong in every 40 bytes or so. */
export const spoiltPiece = (
  recorded: readonly number[],
  dice: Dice,
  length: number,
  beginnings: number,
): readonly number[] => {
  const under = (end: number): number => Math.floor(dice() * end);
  const from = dice() < beginnings ? 0 : under(recorded.length - length);
  let bytes = recorded.slice(from, from + length);
  for (let spoil = 0; spoil < length / 40; spoil += 1) {
    const at = under(bytes.length);
    switch (SPOILS[under(SPOILS.length)]!) {
      case 'flip':
        bytes[at] = (bytes[at] ?? 0) ^ (1 << under(8));
        break;
      case 'drop':
        bytes.splice(at, 1);
        break;
      case 'double':
        bytes.splice(at, 0, bytes[at] ?? 0);
        break;
      case 'splice': {
        const other = under(recorded.length - 20);
        bytes = [...bytes.slice(0, at), ...recorded.slice(other, other + 20), ...bytes.slice(at)];
        break;
      }
      case 'truncate':
        if (bytes.length > length / 2) bytes = bytes.slice(0, Math.max(1, bytes.length - under(20)));
        break;
    }
  }
  return bytes;
};
