import { seededDice, type Dice } from '../../../sim/dice.ts';
import { anyBytes, spoiltPiece } from '../../contract/spoilt-bytes.ts';
import { START } from '../../support/plant.ts';
import { openKeptShed } from '../kept-shed.ts';
import { tables } from '../kills.ts';
import { quickFarm } from '../quick-farm.ts';
import type { KeptBoard } from './kept-board.ts';

/**
 * All that the host says to a board in four minutes: its hand-shake, its heartbeats, a table put, floods and a hold ordered
 * by hand.
 */
export const recordedHost = async (): Promise<readonly number[]> => {
  const shed = openKeptShed({ farm: quickFarm(), startMillis: START, days: 1, seed: 5, resetsOnOpen: false });
  const { trace } = shed.board.chip;
  trace.start();
  const host = shed.startHost(tables()[1]);
  await shed.pass(60);
  host.order('short');
  await shed.pass(60);
  host.order('long');
  await shed.pass(120);
  await host.stop();
  return trace.entries().flatMap((entry) => (entry.kind === 'heard' ? [entry.byte] : []));
};

const PIECE_BYTES = 240;
const BEGINNINGS = 0.1;

/** Any bytes, and pieces of what was recorded with something wrong in them, by turns. */
export const noise = (recorded: readonly number[], dice: Dice, count: number): readonly number[] => {
  const bytes: number[] = [];
  while (bytes.length < count) {
    if (dice() < 0.3) bytes.push(...anyBytes(dice, Math.floor(dice() * 120)));
    else bytes.push(...spoiltPiece(recorded, dice, PIECE_BYTES, BEGINNINGS));
  }
  return bytes.slice(0, count);
};

/** Noise of `count` bytes without a pause; one second at a time, since a host's own buffer is no larger. */
export const storm = (board: KeptBoard, recorded: readonly number[], seed: number, count: number): void => {
  const dice = seededDice(seed);
  const BYTES_A_SECOND = 5760;
  for (let left = count; left > 0; left -= BYTES_A_SECOND) {
    board.hear(noise(recorded, dice, Math.min(left, BYTES_A_SECOND)));
    board.pass(1);
  }
};
