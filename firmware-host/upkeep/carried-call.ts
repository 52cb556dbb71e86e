import { messageText } from '../../src/alarm/language/message.ts';
import { languageOf } from '../../src/alarm/language/languages.ts';
import type { Call } from '../../src/controller.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Call as Carried } from '../herald/call.ts';

/** A call of the controller as the herald carries it: plain words, and a shorter text for a telephone. */
export const carriedCall = (
  farm: Farm,
  { kind, alarm, priority, text, rung, minutesLeft, card }: Call,
): Carried => ({
  kind,
  alarm,
  priority,
  text,
  rung,
  minutesLeft,
  ...(card === null ? {} : { message: messageText(card, languageOf(farm)) }),
});
