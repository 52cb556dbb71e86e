import type { Call } from '../../src/controller.ts';
import type { Call as Carried } from '../herald/call.ts';

/** A call of the controller as the herald carries it: plain words only, which it keeps on the disk as they are. */
export const carriedCall = ({ kind, alarm, priority, text, message, rung, minutesLeft }: Call): Carried => ({
  kind,
  alarm,
  priority,
  text,
  message,
  rung,
  minutesLeft,
});
