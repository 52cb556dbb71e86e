import { spanOf } from '../../src/alarm/language/language.ts';
import type { CardHours } from '../../src/estimate/bucket-card.ts';
import type { BucketRound } from '../../src/estimate/bucket-round.ts';

export const hoursWords = ({ fromHour, toHour }: Pick<CardHours, 'fromHour' | 'toHour'>): string =>
  `${String(fromHour % 24).padStart(2, '0')}–${String(toHour % 24).padStart(2, '0')} h`;

export const everyWords = ({ everyMinutes }: BucketRound): string =>
  everyMinutes === null ? 'without a break' : `every ${spanOf(everyMinutes)}`;

export const channelsWords = ({ channels }: BucketRound): string =>
  `${channels} ${channels === 1 ? 'channel' : 'channels'}`;

/** Litres an hour that a whole round comes to; most of it runs back into the tank and is carried again. */
export const litresPerHour = (rounds: readonly BucketRound[]): number =>
  rounds.reduce(
    (sum, { channels, litresPerChannel, everyMinutes }) =>
      sum + (everyMinutes === null ? 0 : (channels * litresPerChannel * 60) / everyMinutes),
    0,
  );

/** Before all else, and above the tables. */
export const CARD_PLUG =
  'Pull the plug of the pump before hands go into water, for the mains may come back at any moment. Wet hands, wet floor: stay away from sockets, switches and cables; leave mains work to a licensed person, by the rules of the place.';

/** What else stands on every card, whatever the farm. */
export const CARD_RULES: readonly string[] = [
  'Take the water from the tank. If it cannot be reached, plain water is better than none.',
  'Pour at the upper end of each channel, slowly, in the order of the list; what runs off goes back into the tank and is poured again.',
  'Begin at once with the first bench. The alarm and "rillkeeper status" tell the time left.',
  'In the heat shade the benches, and open the house to the wind, if that can be done safely.',
  'When the mains are back and all hands are out of the water, put the plug in again: nothing floods without it. See that water comes back from every bench.',
];

export const CARD_BASIS =
  'Reckoned for a day as hot as the hot day of the farm file, on the dry edge of what nobody has measured: with these pours no bench should come to its wilt floor. It rests on judged figures for what roots hold and drink; measured ones make it better.';
