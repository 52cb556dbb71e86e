import { BOARD_REASONS } from './board-reasons.ts';
import type { InFour } from './in-four.ts';
import { JOURNAL_REASONS } from './journal-reasons.ts';
import { MODEM_REASONS } from './modem-reasons.ts';
import { NETWORK_REASONS } from './network-reasons.ts';
import { PHONE_NETWORK_REASONS } from './phone-network-reasons.ts';

/** One whose number or code of the machine is told with it. */
const WITH_CODE = {
  'with-code': {
    en: '{reason} ({code})',
    pt: '{reason} ({code})',
    es: '{reason} ({code})',
    fr: '{reason} ({code})',
  },
} as const satisfies Readonly<Record<string, InFour>>;

/** All reasons that the host has for what it tells of itself, its ports and its ways to people; frames come last. */
export const HOST_REASONS = {
  ...BOARD_REASONS,
  ...JOURNAL_REASONS,
  ...MODEM_REASONS,
  ...PHONE_NETWORK_REASONS,
  ...NETWORK_REASONS,
  ...WITH_CODE,
};
