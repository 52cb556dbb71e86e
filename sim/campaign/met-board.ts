import { keeperTable } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Link } from '../../src/ports/board.ts';
import type { MonotonicMillis } from '../../src/time/instant.ts';
import { BrokenAssertion } from '../../src/units/assertion.ts';
import type { Claimant } from '../board/keeper.ts';
import { createKeepingShed } from '../board/keeping-shed.ts';
import { createShedBoard, type BoardLimits, type ShedBoard } from '../board/simulated-board.ts';
import type { Dice } from '../dice.ts';
import type { Plant } from '../plant/plant.ts';
import type { Sky } from '../weather/sky.ts';
import type { Script } from './script.ts';

/** What stands between host and pump: a board that does as it is told, or one that keeps the plants besides. */
export type BoardKind = 'stock' | 'keeps';

/** The board of a shed as its host meets it. */
export interface MetBoard extends ShedBoard {
  readonly kind: BoardKind;
  /** The line is whole, and the pump is the host's from here on. */
  readonly found: (claimant: Claimant, now: MonotonicMillis) => Link;
  /** What a host hears of it when it is not heard any more. */
  readonly lost: Link;
  readonly isOurs: () => boolean;
  readonly beaten: () => void;
  readonly silent: (minuteOfDay: number | 'unknown') => void;
  readonly reset: () => void;
}

export interface MetAsked {
  readonly kind: BoardKind;
  readonly farm: Farm;
  readonly sky: Sky;
  readonly script: Script;
  readonly dice: Dice;
  readonly limits: BoardLimits;
}

const WHY = 'the line is gone';
const nothing = (): void => undefined;

const metStock = (board: ShedBoard): MetBoard => ({
  ...board,
  kind: 'stock',
  found: () => ({ kind: 'up' }),
  lost: { kind: 'down', why: WHY },
  isOurs: () => true,
  beaten: nothing,
  silent: nothing,
  reset: () => {
    board.command({ kind: 'pump-off' });
  },
});

/** The table of the first day stays on the board: within a month the sun moves by less than half an hour. */
const partsOf = (farm: Farm): Parameters<typeof createKeepingShed>[2]['parts'] => {
  const plan = keeperTable(farm, farm.invented?.today ?? '');
  if (plan.kind === 'impossible') throw new BrokenAssertion(`no table for a drawn farm: ${plan.why}`);
  return plan.table.parts;
};

export const meetBoard = (plant: Plant, { kind, farm, sky, script, dice, limits }: MetAsked): MetBoard => {
  const shed = {
    fitted: { ...farm.evidence, ...farm.sensors },
    limits,
    faults: script.shed,
    fullReturnLitresPerMinute: farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0),
    dice,
  };
  if (kind === 'stock') return metStock(createShedBoard(plant, sky, shed));
  const board = createKeepingShed(plant, sky, { ...shed, parts: partsOf(farm) });
  return {
    ...board,
    kind,
    found: (claimant, now) => ({ kind: 'up', kept: board.claimed(claimant, now) }),
    lost: { kind: 'down', why: WHY, keeper: 'keeps' },
    isOurs: () => board.owner() === 'host',
  };
};
