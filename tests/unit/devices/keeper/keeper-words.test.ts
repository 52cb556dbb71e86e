import { describe, expect, it } from 'vitest';
import type { KeeperState } from '../../../../firmware-host/devices/keeper/keeper-state.ts';
import {
  keeperSays,
  keeperWarnings,
  leftWords,
} from '../../../../firmware-host/devices/keeper/keeper-words.ts';
import { statusIn, type KeeperStatus } from '../../../../firmware-host/devices/keeper/status.ts';
import { monotonicMillis } from '../../../../src/time/instant.ts';

const PLAIN: KeeperStatus = statusIn(new Uint8Array(49))!;
const status = (change: Partial<KeeperStatus>): KeeperStatus => ({ ...PLAIN, ...change });
const flags = (change: Partial<KeeperStatus['flags']>): KeeperStatus =>
  status({ flags: { ...PLAIN.flags, ...change } });
const state = (change: Partial<KeeperState> = {}): KeeperState => ({
  owner: 'this-host',
  refused: null,
  versions: { protocol: { major: 1, minor: 0 }, firmware: { major: 1, minor: 0 } },
  watchdog: 'on',
  status: PLAIN,
  heardAt: monotonicMillis(0),
  drift: null,
  table: { kind: 'in-force' },
  refusal: null,
  ...change,
});
const refusal = (
  what: NonNullable<KeeperState['refusal']>['what'],
  seconds: number,
): Partial<KeeperState> => ({
  refusal: { what, seconds, at: monotonicMillis(0) },
});

describe('what a grower reads of the keeper', () => {
  it.each([
    [state(), 'This computer has the pump. Its table is that of the plan.'],
    [
      state({ owner: 'keeper', status: status({ secondsToFlood: 720 }), table: { kind: 'any' } }),
      'The board has the pump; by its own table it floods in 12 min. Its table is number 0, in slot 0.',
    ],
    [
      state({
        owner: 'keeper',
        status: status({ secondsToFlood: null, table: { slot: 'flash', seq: 0, crc: 0 } }),
        table: { kind: 'unknown' },
      }),
      'The board has the pump. Its table is the one that it was flashed with.',
    ],
    [
      state({ status: status({ holdSecondsLeft: 1500 }) }),
      'This computer has the pump. Its table is that of the plan. The board holds the pump for 25 min more; a hold is not isolation: pull the plug.',
    ],
    [
      state({ status: status({ resets: 3, resetCauses: ['watchdog'] }) }),
      'This computer has the pump. Its table is that of the plan. 3 resets since power-on; cause of the last: watchdog.',
    ],
    [state({ owner: 'unknown', status: null, table: { kind: 'unknown' } }), ''],
  ])('of %j', (given, says) => {
    expect(keeperSays(given)).toBe(says);
  });

  it.each([
    [refusal('resting', 12), /It lets the motor rest: the pump may start after 12 s\./],
    [refusal('held', 600), /It does not run the pump: it is held\./],
    [refusal('tank-low', 300), /the tank is low, the next sip may come after 5 min\./],
    [refusal('bad-value', 0), /a value is out of its range\./],
    [refusal('cut-short', 20), /It runs the pump for 20 s only, by a limit of its own\./],
  ])('of a refusal, %j', (change, says) => {
    expect(keeperSays(state(change))).toMatch(says);
  });
});

describe('the warnings of a board with a keeper', () => {
  it('are none when all is well', () => {
    expect(keeperWarnings(state())).toEqual([]);
  });

  it.each([
    [
      { status: status({ failedTests: ['flash'] }) },
      /self-test of the board failed \(flash\).*flash it again/,
    ],
    [{ status: status({ failedTests: ['EEPROM'] }) }, /a stored table does not verify/],
    [{ status: flags({ notSetUp: true }) }, /not set up: it keeps no plants/],
    [{ status: flags({ missedFlood: true }) }, /missed a flood: no water came back/],
    [{ status: flags({ floatSuspect: true }) }, /float reads low while water comes back/],
    [{ status: flags({ handTestAsked: true }) }, /a short press of the button lets floods run for 2 h/],
    [{ watchdog: 'off' }, /flashed without its watchdog/],
    [
      { table: { kind: 'failed', why: 'it refuses the new one' } },
      /does not flood by this plan when this computer is gone: it refuses the new one\./,
    ],
    [{ drift: { percent: -2.4, level: 'warning' } }, /goes 2\.4 % too slow by this computer's\.$/],
    [{ drift: { percent: 6, level: 'alarm' } }, /goes 6\.0 % too fast.*Replace the board\./],
  ] as const)('of %j', (change, says) => {
    const [warning, ...more] = keeperWarnings(state(change));
    expect([warning, more]).toEqual([expect.stringMatching(says), []]);
  });

  it('a drift below 2 % is none', () => {
    expect(keeperWarnings(state({ drift: { percent: 1.9, level: 'well' } }))).toEqual([]);
  });
});

describe('what is said when this computer lets go', () => {
  it.each([
    [state(), 'The board floods by its own table from now on.'],
    [
      state({ status: status({ pump: { asked: 'on', secondsLeft: 60, secondsSince: 5 } }) }),
      'The board floods by its own table from now on. The flood under way goes on.',
    ],
    [
      state({ status: flags({ notSetUp: true }) }),
      'The board is not set up: it floods nothing, and nobody keeps the plants.',
    ],
  ])('of %j', (given, says) => {
    expect(leftWords(given)).toBe(says);
  });
});
