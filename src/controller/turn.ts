import type { Farm } from '../farm/farm.ts';
import type { Entry, Happening } from '../journal/entry.ts';
import type { BoardCommand } from '../ports/board.ts';
import type { Now } from '../time/instant.ts';
import type { ControllerState } from './state.ts';

/** One turn of the controller on its way through the stages: the state so far, and what it has said. */
export interface Turn {
  readonly farm: Farm;
  readonly now: Now;
  readonly state: ControllerState;
  readonly commands: readonly BoardCommand[];
  readonly entries: readonly Entry[];
}

/** The turn with its state changed and its entries stamped with the moment. */
export const turnedTo = (
  turn: Turn,
  change: Partial<ControllerState>,
  said: readonly Happening[] = [],
  commands: readonly BoardCommand[] = [],
): Turn => ({
  farm: turn.farm,
  now: turn.now,
  state: { ...turn.state, ...change },
  commands: commands.length === 0 ? turn.commands : [...turn.commands, ...commands],
  entries:
    said.length === 0
      ? turn.entries
      : [
          ...turn.entries,
          ...said.map((told): Entry => ({ ...told, at: turn.now.monotonic, wall: turn.now.wall })),
        ],
});
