import { begin, type ControllerState } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Link } from '../../src/ports/board.ts';
import type { Now } from '../../src/time/instant.ts';

/**
 * How a host goes on after its power was cut: the one place to change once a host takes up what it had kept. Now it begins
 * with no memory: the judge asks of it neither a hold nor the phase of the rests from before.
 */
export const reborn = (farm: Farm, now: Now, link: Link): ControllerState => begin(farm, now, link);
