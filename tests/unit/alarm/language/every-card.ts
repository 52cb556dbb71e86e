import type { Card } from '../../../../src/alarm/card.ts';
import { hostCards } from '../../../../src/alarm/host-cards.ts';
import type { Situation } from '../../../../src/alarm/situation.ts';
import { standingCards } from '../../../../src/alarm/standing-cards.ts';
import type { StrengthRemedy } from '../../../../src/estimate/dilution.ts';
import type { Farm } from '../../../../src/farm/farm.ts';
import { exampleFarm } from '../../../support/farm.ts';
import type { HostHealth } from '../../../../src/ports/host-health.ts';
import type { MonotonicMillis } from '../../../../src/time/instant.ts';
import { CLUE, minutesAgo, NOW, ROUND, STANDING, TIMELESS, WELL } from '../situations.ts';

/** Every sentence that the alarms have: each kind of alarm, and each way in which its words branch. */

const board = (keeper: Situation['keeper']): Partial<Situation> => ({
  ...STANDING['board-silent'],
  keeper,
});
const shut = (reason: string, by: 'person' | 'board' | 'water'): Partial<Situation> => ({
  shutTooLong: { reason, by, since: minutesAgo(20) },
});
const weak = (says: string): Partial<Situation> => ({ degraded: { kind: 'degraded', why: 'weak', says } });
const strength = (
  side: 'strong' | 'weak',
  remedy: StrengthRemedy,
  millisiemensPerCm = 2.6,
  unreadSince: MonotonicMillis | null = null,
): Partial<Situation> => ({ strengthOff: { side, millisiemensPerCm, unreadSince, remedy } });
const air = (why: string): Partial<Situation> => ({
  airBadSince: minutesAgo(12),
  air: { quality: 'absent', why },
});

const SITUATIONS: Readonly<Record<string, Partial<Situation>>> = {
  'missed, no mains': { missed: { ...CLUE, mains: 'not-seen' } },
  'missed, no contact': { missed: { ...CLUE, contact: 'not-seen' } },
  'missed, no current': { missed: { ...CLUE, current: 'not-seen' } },
  'missed, tank fell': { missed: { ...CLUE, tankFell: 'seen' } },
  'missed, pump ran': { missed: CLUE },
  'missed, switched on': { missed: { ...CLUE, current: 'unknown' } },
  'missed, a trickle': { missed: { ...CLUE, contact: 'not-seen', trickleLitresPerMinute: 9 } },
  'mains lost': STANDING['mains-lost'],
  'mains doubtful': { mainsLost: { since: minutesAgo(2), against: 'the pump draws current' } },
  'board silent': board('none'),
  'board silent, keeps': board('keeps'),
  'pump runs on': STANDING['pump-runs-on'],
  'pump runs by hand': {
    runsOn: { why: 'it has drawn current past its open relay', since: minutesAgo(2) },
  },
  'pump runs on, contact': { runsOn: { why: 'its relay has been closed', since: minutesAgo(2) } },
  'pump runs on, water': { runsOn: { why: 'water has come back', since: minutesAgo(2) } },
  'tank low': STANDING['tank-low'],
  'tank returning': { tank: 'returning', tankSince: minutesAgo(20) },
  'tank low, nobody knows since when': { tank: 'low' },
  'float suspect': STANDING['float-suspect'],
  'tank falls': STANDING['tank-falls'],
  'tank falls, too low': { tankFall: { beyondLitresPerHour: 60, lowInMinutes: 0, isSoonLow: true } },
  'tank falls, not soon': { tankFall: { beyondLitresPerHour: 16, lowInMinutes: 1500, isSoonLow: false } },
  'tank not topped up': { tankFall: { beyondLitresPerHour: null, lowInMinutes: 191, isSoonLow: true } },
  'tank not topped up, too low': {
    tankFall: { beyondLitresPerHour: null, lowInMinutes: 0, isSoonLow: true },
  },
  'tank full': STANDING['tank-full'],
  'too strong': STANDING['strength-off'],
  'too strong, room': strength('strong', { kind: 'add-water', litres: 63.7 }),
  'too strong, salty top-up': strength('strong', { kind: 'no-water' }),
  'too strong, back': strength('strong', { kind: 'wait' }, 1.7),
  'too weak': strength('weak', { kind: 'add-stock' }, 0.9),
  'too weak, silent': strength('weak', { kind: 'add-stock' }, 0.9, minutesAgo(15)),
  leak: { waterOnFloor: 'the leak sensor is wet' },
  overflow: { waterOnFloor: 'the overflow float is wet' },
  'leak and overflow': STANDING['water-on-floor'],
  hold: shut('held by Ana', 'person'),
  'dry, float low': shut('the tank float reads low', 'water'),
  'dry, leak and overflow': shut('leak sensor and overflow float are both wet', 'water'),
  'dry, board': shut('the board does not answer', 'board'),
  'dry, board keeps': { ...shut('the board does not answer', 'board'), keeper: 'keeps' },
  'weak return': STANDING['weak-flow'],
  'return lower': STANDING['return-lower'],
  'cut short': weak('water came back for only 4 of 20 min, after 2 retries'),
  'weak, sip': weak('the board gave only a sip'),
  'weak, stopped': weak('the board stopped it after 3 min'),
  'flow silent': STANDING['flow-sensor-silent'],
  'flow chatters': { flowBad: { since: minutesAgo(10), why: 'it chatters: a loose or wet contact' } },
  'flow old': { flowBad: { since: minutesAgo(10), why: 'last reading is 1320 s old' } },
  'flow stuck': STANDING['flow-sensor-stuck'],
  'relay chatters': STANDING['relay-chatters'],
  'float unmoved': STANDING['float-unmoved'],
  clock: STANDING['clock-stepped'],
  'air old': STANDING['no-good-temperature'],
  'air out of range': air('the air thermometer reads out of range: open or shorted'),
  'air colder': air(
    'the air thermometer reads 12 °C colder than the one in the water, by day: one of them is wrong',
  ),
};

/** How much is left, and by which clock. */
const LEFT: Readonly<Record<string, (bench: string) => Partial<Situation>>> = {
  'from 14:40': (bench) => ({ left: () => ({ minutes: 43, bench }) }),
  'by no clock': (bench) => ({ left: () => ({ minutes: 1199, bench }), now: TIMELESS }),
  already: (bench) => ({ left: () => ({ minutes: 0, bench }) }),
  'already, and three more': (bench) => ({ left: () => ({ minutes: 0, bench, others: 3 }) }),
  'not soon': () => ({ left: () => ({ minutes: 1440, bench: null }) }),
};

const DEAD_BOARDS = ['pump-stops', 'pump-runs', 'plain-timer'] as const;

export interface Named {
  readonly name: string;
  readonly card: Card;
}

const WELL_HOST: HostHealth = { journal: { kind: 'well' }, channels: [], safeMode: null, restarts: 3 };
const drift = (percentFast: number): Partial<HostHealth> => ({
  boardClock: { percentFast, since: minutesAgo(15) },
});
const HOSTS: Readonly<Record<string, Partial<HostHealth>>> = {
  'channel dead': { channels: [{ name: 'modem', why: 'no network', since: minutesAgo(15) }] },
  'channels dead': {
    channels: ['modem', 'mail'].map((name) => ({ name, why: 'no network', since: minutesAgo(15) })),
  },
  'not recording': {
    journal: { kind: 'not-recording', why: 'no space left', sinceMonotonic: minutesAgo(15), dropped: 3 },
  },
  'slow disk': { journal: { kind: 'behind', waiting: 9, seconds: 130 } },
  'safe mode': { safeMode: 'three starts in 10 min' },
  'past late': { pastUnread: { why: 'late' } },
  'past lost': { pastUnread: { why: 'damaged' } },
  'clock fast': drift(7),
  'clock slow': drift(-3),
  'line bad': { line: { percentSpoilt: 8.3, since: minutesAgo(15) } },
  'line all bad': { line: { percentSpoilt: 90, since: minutesAgo(15) } },
  'host battery': { battery: { percent: 18, volts: 11.4, level: 'low', since: minutesAgo(15) } },
  'host large': { memory: { megabytes: 214.4, since: minutesAgo(15), renewed: 'by-itself' } },
  'host large, by hand': { memory: { megabytes: 214.4, since: minutesAgo(15), renewed: 'by-hand' } },
  'host hot': { chip: { celsius: 78.4, since: minutesAgo(15) } },
};

const everyHostCard = (farm: Farm): readonly Named[] =>
  Object.entries(HOSTS).flatMap(([name, health]) =>
    hostCards(farm, { ...WELL_HOST, ...health }, NOW).map((card) => ({ name: `${name}, from 14:40`, card })),
  );

/** Every situation under every time left, and each board alarm under each dead-board choice, in the farm's language. */
export const everyCard = (of: Partial<Farm>, bench: string): readonly Named[] => [
  ...everyHostCard({ ...exampleFarm, ...of }),
  ...Object.entries(SITUATIONS).flatMap(([situation, facts]) =>
    Object.entries(LEFT).flatMap(([time, left]) =>
      DEAD_BOARDS.flatMap((deadBoard) => {
        if (deadBoard !== 'plain-timer' && !situation.startsWith('board')) return [];
        const farm = { ...exampleFarm, ...of, deadBoard };
        return standingCards(farm, {
          ...WELL,
          bucket: () => ({ ...ROUND, bench }),
          ...facts,
          ...left(bench),
        }).map((card) => ({
          name: `${situation}, ${time}${situation.startsWith('board') ? `, ${deadBoard}` : ''}`,
          card,
        }));
      }),
    ),
  ),
];
