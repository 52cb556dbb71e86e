import { expect, it } from 'vitest';
import type { CampaignTask } from '../../sim/campaign/task.ts';
import { breachesOf, campaign } from './campaign.ts';

/** What each of them found: a defect of the product, or of the judge. */
const FOUND: readonly (readonly [found: string, seed: number, pair: NonNullable<CampaignTask['pair']>])[] = [
  ['a relay that opens in the middle of a flood was a weak flood', 293, ['filter-clogging', 'hold']],
  ['a return stuck high hid that contact and current saw no power', 592, ['flow-stuck-high', 'sensor-slow']],
  ['a jump by noise was no good temperature again as the day warmed', 697, ['air-in-sun', 'board-reset']],
  ['judge: floods whose records a power cut took from memory', 363, ['branch-clogging', 'host-killed']],
  ['judge: messages whose records a power cut took', 609, ['flow-silent', 'host-frozen']],
  ['judge: a pump asked on and off at once', 732, ['float-stuck-low', 'clock-unset']],
  ['judge: the same, under odd orders', 1024, ['odd-orders', 'flood-now']],
];

it.each(FOUND)('%s: seed %d with %j is whole', async (_, seed, pair) => {
  expect(breachesOf(await campaign([{ seed, days: 3, pair, twice: false }]))).toEqual([]);
});
