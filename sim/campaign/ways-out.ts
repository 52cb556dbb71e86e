import type { ChannelTraits, DeliverySettings } from '../../src/delivery/delivery-state.ts';
import { failed, sent, type Form, type Sent } from '../../src/delivery/message.ts';
import type { Farm } from '../../src/farm/farm.ts';
import type { Dice } from '../dice.ts';
import type { BesideFaultKind } from '../faults/injectors.ts';
import { standingBeside, within, type Script, type WayOut } from './script.ts';

/** The ways to people of every farm of the campaign, as the host's own channels tell of themselves. */
const WAYS: readonly (ChannelTraits & { readonly name: WayOut })[] = [
  { name: 'modem', forms: ['ring', 'text'], most: 1, checks: 'yes' },
  { name: 'mail', forms: ['mail'], most: 2, checks: 'yes' },
  { name: 'webhook', forms: ['post'], most: 2, checks: 'no' },
];

/** Invented people. */
const PEOPLE = [
  { name: 'Ana', phone: '+351912000001', email: 'ana@example.org' },
  { name: 'Rui', phone: '+351912000002', email: 'rui@example.org' },
] as const;

export const settingsOf = ({ place, language }: Farm): DeliverySettings => ({
  language,
  rota: { people: PEOPLE, night: { from: '21:00', to: '07:00' }, timeZone: place.timeZone },
  channels: WAYS,
});

/** How long a channel that works takes, s; judgement. */
const SECONDS: Readonly<Record<Form | 'check', readonly [least: number, most: number]>> = {
  ring: [12, 40],
  text: [2, 12],
  mail: [0.5, 6],
  post: [0.1, 2],
  check: [0.3, 3],
};
const REFUSED_SECONDS = [0.1, 5] as const;

/** What comes of one try, and after how long; `never` where nothing ever comes. */
export type Answer = { readonly afterMillis: number; readonly result: Sent } | 'never';

const brokenWay = (script: Script, name: string, atMillis: number): BesideFaultKind | null => {
  const own = script.beside.find(({ way, ...span }) => way === name && within(span, atMillis));
  if (own !== undefined) return own.kind;
  return name !== 'modem' && standingBeside(script, 'network-gone', atMillis) !== null
    ? 'network-gone'
    : null;
};

/** Asks a channel for something at a moment. */
export const asked = (
  script: Script,
  dice: Dice,
  hit: (kind: BesideFaultKind) => void,
  {
    channel,
    what,
    atMillis,
  }: { readonly channel: string; readonly what: Form | 'check'; readonly atMillis: number },
): Answer => {
  const broken = brokenWay(script, channel, atMillis);
  if (broken !== null) hit(broken);
  const [least, most] = broken === null ? SECONDS[what] : REFUSED_SECONDS;
  const afterMillis = Math.round(1000 * (least + (most - least) * dice()));
  if (broken === null) return { afterMillis, result: sent('taken') };
  if (broken === 'channel-hung') return 'never';
  return { afterMillis, result: failed(broken === 'network-gone' ? 'no network' : 'refused') };
};
