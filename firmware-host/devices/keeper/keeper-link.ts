import type { BoardCommand, Kept, Press, Signals, TimeOfDay } from '../../../src/ports/board.ts';
import type { MonotonicMillis } from '../../../src/time/instant.ts';
import type { Timers, TimerId } from '../timers.ts';
import { nextDue } from './ask.ts';
import { boardMessageIn } from './board-message.ts';
import type { Frame } from './frame.ts';
import { bytesOf } from './host-message.ts';
import { keeperStateOf, type KeeperState } from './keeper-state.ts';
import { linkStep } from './link-step.ts';
import { stateAtOpening, type LinkEffect, type LinkEvent } from './link-state.ts';
import type { LogMemory } from './log-memory.ts';

export interface KeeperAsked {
  /** Of a board that is only looked at nothing is claimed. */
  readonly use: 'drive' | 'look';
  /** The 72 bytes that the farm file gives; null: there are none, and nothing is claimed. */
  readonly setup: Uint8Array | null;
  /** What of the wiring this board has no pin for, in words; null: nothing. */
  readonly misfitWhy: string | null;
  /** The table that the board should flood by; null for any. */
  readonly table: () => Uint8Array | null;
  /** What was read of this board's log before. */
  readonly before: LogMemory | null;
  readonly claimFrom: MonotonicMillis;
  readonly timers: Timers;
  readonly write: (bytes: Uint8Array) => void;
  readonly up: (kept: Kept) => void;
  /** The pump is not ours any more, or may never be; the line stays. */
  readonly down: (why: string, keeps: boolean) => void;
  /** The line is of no more use. */
  readonly lost: (why: string) => void;
  readonly pressed: (press: Press) => void;
}

/** The keeper at the other end of one line. */
export interface KeeperLink {
  readonly heard: (frame: Frame) => void;
  /** Once a second. */
  readonly beat: () => void;
  readonly alive: (time: TimeOfDay | 'unknown') => void;
  readonly command: (command: BoardCommand) => void;
  readonly show: (signals: Signals) => void;
  /** The keeper has the pump from now on. Nothing waits for its answer: without this word the lease runs out. */
  readonly letGo: () => void;
  readonly state: () => KeeperState;
  readonly memory: () => LogMemory;
}

/** Runs the link's state machine: gives it events in their order, and does what it says. */
export const openKeeperLink = (asked: KeeperAsked): KeeperLink => {
  const { timers, use, setup, misfitWhy } = asked;
  let state = stateAtOpening(asked.before, asked.claimFrom);
  let over = false;
  let due: TimerId | undefined;

  const does = (effect: LinkEffect): void => {
    if (over) return;
    switch (effect.kind) {
      case 'send':
        asked.write(bytesOf(effect.seq, effect.message));
        return;
      case 'up':
        asked.up(effect.kept);
        return;
      case 'down':
        asked.down(effect.why, effect.keeps);
        return;
      case 'lost':
        over = true;
        asked.lost(effect.why);
        return;
      case 'pressed':
        asked.pressed(effect.press);
        return;
      case 'want-table':
        happens({ kind: 'table', table: asked.table() });
        return;
    }
  };
  const happens = (event: LinkEvent): void => {
    if (over) return;
    const step = linkStep(state, event, { use, setup, misfitWhy }, timers.now());
    state = step.state;
    step.effects.forEach(does);
    timers.clearTimeout(due);
    const at = nextDue(state);
    if (at !== null)
      due = timers.setTimeout(
        () => {
          happens({ kind: 'due' });
        },
        Math.max(1, at - timers.now()),
      );
  };

  happens({ kind: 'begin' });
  return {
    heard: (frame) => {
      const message = boardMessageIn(frame);
      if (message !== null) happens({ kind: 'frame', seq: frame.seq, message });
    },
    beat: () => {
      happens({ kind: 'beat' });
    },
    alive: (time) => {
      happens({ kind: 'alive', time });
    },
    command: (command) => {
      happens({ kind: 'command', command });
    },
    show: (signals) => {
      happens({ kind: 'show', signals });
    },
    letGo: () => {
      happens({ kind: 'let-go' });
      over = true;
      timers.clearTimeout(due);
    },
    state: () => keeperStateOf(state),
    memory: () => state.log,
  };
};
