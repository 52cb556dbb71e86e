import { keptText, readKept } from '../../../firmware-host/storage/kept-state.ts';
import { keptState, resumed, type Away, type Boot, type ControllerState } from '../../../src/controller.ts';
import type { Farm } from '../../../src/farm/farm.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Now } from '../../../src/time/instant.ts';

export interface CutAsked {
  readonly farm: Farm;
  readonly state: ControllerState;
  /** When the process ended. */
  readonly at: Now;
  /** When the next one begins, on its own clock. */
  readonly now: Now;
  readonly away: Away;
  readonly link?: Link;
  readonly boot?: Boot;
}

/** The state of a controller whose process ended, as one that goes on has it: by way of the text on the disk. */
export const cut = ({
  farm,
  state,
  at,
  now,
  away,
  link = { kind: 'up' },
  boot = 'same',
}: CutAsked): ControllerState => {
  const read = readKept(keptText(keptState(state, at), 'boot'));
  if (read.kind !== 'found') throw new Error(`what was kept is ${read.kind}`);
  return resumed(farm, read.stored.state, now, away, link, boot);
};
