import { expect, it } from 'vitest';
import type { CampaignTask } from '../../sim/campaign/task.ts';
import { breachesOf, campaign } from './campaign.ts';

/** What each of them found: a defect of the product, or of the judge. */
const FOUND: readonly (readonly [found: string, task: Omit<CampaignTask, 'twice'>])[] = [
  [
    'a relay that opens in the middle of a flood was a weak flood',
    { seed: 293, days: 3, pair: ['filter-clogging', 'hold'] },
  ],
  [
    'a return stuck high hid that contact and current saw no power',
    { seed: 592, days: 3, pair: ['flow-stuck-high', 'sensor-slow'] },
  ],
  [
    'a jump by noise was no good temperature again as the day warmed',
    { seed: 697, days: 3, pair: ['air-in-sun', 'board-reset'] },
  ],
  [
    'a tank full after floods without water fell when water was in the channels again',
    { seed: 123, days: 3, pair: ['mains-lost', 'hold'] },
  ],
  [
    'floods that an interlock had shortened were weak beside whole ones',
    { seed: 506, days: 3, pair: ['leak', 'link-lost'] },
  ],
  [
    'a return was lower than that of floods asked for one upon the other',
    { seed: 522, days: 3, pair: ['leak', 'sensor-stuck'] },
  ],
  ['a meter that sticks high was the best there ever was', { seed: 376, days: 30 }],
  [
    'judge: floods whose records a power cut took from memory',
    { seed: 363, days: 3, pair: ['branch-clogging', 'host-killed'] },
  ],
  [
    'judge: messages whose records a power cut took',
    { seed: 609, days: 3, pair: ['flow-silent', 'host-frozen'] },
  ],
  [
    'judge: a pump asked on and off at once',
    { seed: 732, days: 3, pair: ['float-stuck-low', 'clock-unset'] },
  ],
  ['judge: the same, under odd orders', { seed: 1024, days: 3, pair: ['odd-orders', 'flood-now'] }],
  [
    'judge: a hold that takes the place of a dead line',
    { seed: 752, days: 3, pair: ['link-lost', 'board-reset'] },
  ],
  ['judge: a host without the time of day lengthens no rest for cool air', { seed: 224, days: 3 }],
  ['judge: a thermometer that is out of hearing with its board', { seed: 279, days: 30 }],
  ['judge: a flood whose missing return was among the words that were lost', { seed: 435, days: 30 }],
  ['judge: a return that sticks while somebody asks for flood upon flood', { seed: 468, days: 30 }],
  ['a slow farm whose channels still drain 13 min after each flood', { seed: 576, days: 30 }],
  ['judge: a way to people that went, died again and is told again', { seed: 355, days: 3 }],
  ['judge: a second dead channel that joins the first', { seed: 61, days: 3 }],
  [
    'a tank float was suspect by the water of a pump that ran unasked',
    { seed: 187, days: 3, pair: ['relay-welded', 'top-up-stopped'] },
  ],
  [
    'a return was lower after long rests in the evening of a day on which plants drank much',
    { seed: 196, days: 3, pair: ['relay-welded', 'air-in-sun'] },
  ],
  ['the same, of long slow channels', { seed: 897, days: 3, pair: ['late-ticks', 'network-gone'] }],
  [
    'a flood that the tank denied was told at its end, past its deadline, for a pump that ran before it',
    { seed: 841, days: 3, pair: ['host-killed', 'sensor-stuck'] },
  ],
  [
    'judge: a board that wavers just as a flood is missed',
    { seed: 20017, days: 3, pair: ['pump-dead', 'air-open'] },
  ],
  [
    'judge: a pump unplugged in a rest, of a farm that wilts 20 min after the next flood is due',
    { seed: 20067, days: 3, pair: ['pump-unplugged', 'link-flapping'] },
  ],
  [
    'a switch at its limit, in a channel that drains, was one that sticks',
    { seed: 20300, days: 3, pair: ['filter-clogging', 'sensor-slow'] },
  ],
  [
    'judge: tries of a minute each, by a contact that says garbage',
    { seed: 20557, days: 3, pair: ['flow-stuck-low', 'sensor-garbage'] },
  ],
  [
    'judge: garbage of a thermometer that is open',
    { seed: 20839, days: 3, pair: ['host-killed', 'flood-now'] },
  ],
  ['judge: a tank that drains back to 2 L below its brim', { seed: 268, days: 30 }],
  ['the shed: a floor that stayed wet for 22 days after its leak was mended', { seed: 572, days: 30 }],
  ['judge: a dry flood that goes on at its board while the line is gone', { seed: 1088, days: 30 }],
  ['judge: a tank that fills between sips, and is low in each', { seed: 1099, days: 30 }],
  ['judge: a flood of the board that is taken over in its last minute', { seed: 1523, days: 30 }],
  ['what still drains above a meter that scatters was a sensor that sticks', { seed: 1593, days: 30 }],
  [
    'a tank fell by what had not drained back yet, 5 min sooner after a stop than the time before',
    { seed: 506, days: 3, faultFree: true },
  ],
  ['judge: plants that wilt under their plan with nothing broken', { seed: 400, days: 3, faultFree: true }],
];

it.each(FOUND)('%s: %j is whole', async (_, task) => {
  expect(breachesOf(await campaign([{ ...task, twice: false }]))).toEqual([]);
});
