import { describe, expect, it } from 'vitest';
import { statusIn, type KeeperStatus } from '../../../../firmware-host/devices/keeper/status.ts';

/** Offsets and bits by docs/board-protocol.md, "Status". */

const statusWith = (
  ...changes: readonly (readonly [at: number, ...bytes: number[]])[]
): KeeperStatus | null => {
  const body = new Uint8Array(49);
  for (const [at, ...bytes] of changes) body.set(bytes, at);
  return statusIn(body);
};

const BITS: readonly (readonly [
  string,
  at: number,
  bytes: readonly [number, number],
  Partial<KeeperStatus> | object,
])[] = [
  ['pump asked on', 7, [0x01, 0x00], { pump: { asked: 'on' } }],
  ['a read-back that is open', 7, [0x00, 0x02], { seen: { readBackClosed: false, waterBack: null } }],
  ['a read-back that is closed', 7, [0x02, 0x02], { seen: { readBackClosed: true } }],
  ['water back', 7, [0x04, 0x04], { seen: { waterBack: true } }],
  ['pump current', 7, [0x08, 0x08], { seen: { pumpCurrent: true } }],
  ['float low', 7, [0x10, 0x10], { seen: { floatLow: true } }],
  ['leak', 7, [0x20, 0x20], { seen: { leak: true } }],
  ['overflow', 7, [0x40, 0x40], { seen: { overflow: true } }],
  ['mains lost', 7, [0x80, 0x80], { seen: { mainsLost: true, overflow: null } }],
  ['a float that is not fitted, whatever its bit', 7, [0x10, 0x00], { seen: { floatLow: null } }],
  ['time of day known', 9, [0x01, 0], { flags: { timeKnown: true, tankLow: false } }],
  ['tank-low rule', 9, [0x02, 0], { flags: { tankLow: true } }],
  ['float suspect', 9, [0x04, 0], { flags: { floatSuspect: true } }],
  ['missed flood', 9, [0x08, 0], { flags: { missedFlood: true } }],
  ['not set up', 9, [0x10, 0], { flags: { notSetUp: true } }],
  ['no table in EEPROM', 9, [0x20, 0], { flags: { noStoredTable: true } }],
  ['self-test failed', 9, [0x40, 0], { flags: { selfTestFailed: true } }],
  ['clock suspect', 9, [0x80, 0], { flags: { clockSuspect: true } }],
  ['first flood due', 9, [0, 0x01], { flags: { firstFloodDue: true } }],
  ['hand test asked for', 9, [0, 0x02], { flags: { handTestAsked: true, firstFloodDue: false } }],
  ['11: 258 s left', 11, [2, 1], { pump: { secondsLeft: 258 } }],
  ['13: on or off for 258 s', 13, [2, 1], { pump: { secondsSince: 258 } }],
  ['13: nobody knows', 13, [255, 255], { pump: { secondsSince: null } }],
  ['15: last flood', 15, [2, 1], { lastFlood: { startedSecondsAgo: 258, ranSeconds: 0 } }],
  ['15: no flood known', 15, [255, 255], { lastFlood: null }],
  ['17: it ran for 258 s', 17, [2, 1], { lastFlood: { startedSecondsAgo: 0, ranSeconds: 258 } }],
  ['19: hold', 19, [2, 1], { holdSecondsLeft: 258 }],
  ['22: 23:59', 22, [0x9f, 5], { minuteOfDay: 1439 }],
  ['22: no time of day', 22, [255, 255], { minuteOfDay: null }],
  ['22: a time that there is not', 22, [0xa0, 5], { minuteOfDay: null }],
  ['24: seconds to the flood', 24, [2, 1], { secondsToFlood: 258 }],
  ['24: no flood', 24, [255, 255], { secondsToFlood: null }],
  ['27: table', 27, [2, 1], { table: { slot: 0, seq: 258, crc: 0 } }],
  ['29: its CRC', 29, [2, 1], { table: { slot: 0, seq: 0, crc: 258 } }],
  ['31: log', 31, [2, 1], { logNext: 258 }],
  ['34: resets', 34, [2, 1], { resets: 258 }],
  ['40: frames dropped', 40, [2, 1], { framesDropped: 258 }],
  ['42: bytes lost', 42, [2, 1], { bytesLost: 258 }],
  ['44: room', 44, [2, 1], { roomBytes: 258 }],
  ['47: long presses', 47, [2, 1], { longPresses: 258 }],
];

describe('a status', () => {
  it('of 49 zeros is a keeper that has just begun, with the pump off and nothing fitted', () => {
    expect(statusWith()).toMatchObject({
      epoch: 0,
      owner: 'keeper',
      uptimeSeconds: 0,
      pump: { asked: 'off', secondsLeft: 0, secondsSince: 0 },
      resetCauses: [],
      failedTests: [],
    });
    expect(Object.values(statusWith()!.seen)).toEqual(Array.from({ length: 7 }, () => null));
    expect(Object.values(statusWith()!.flags)).toEqual(Array.from({ length: 10 }, () => false));
  });

  it.each(BITS)('%s', (_, at, bytes, found) => {
    expect(statusWith([at, ...bytes])).toMatchObject(found);
  });

  it('epoch, owner, uptime of 0x04030201 s, lease, fuses and lock bits stand at 0, 2, 3, 21 and 36', () => {
    expect(
      statusWith([0, 2, 1], [2, 1], [3, 1, 2, 3, 4], [21, 9], [36, 0xff, 0xde, 0xfd, 0xcf]),
    ).toMatchObject({
      epoch: 258,
      owner: 'host',
      uptimeSeconds: 0x04030201,
      leaseSecondsLeft: 9,
      fuses: { low: 0xff, high: 0xde, extended: 0xfd, lock: 0xcf },
    });
  });

  it.each([
    [0, 0],
    [1, 1],
    [2, 'flash'],
  ] as const)('slot %d of the table is %s', (byte, slot) => {
    expect(statusWith([26, byte])?.table.slot).toBe(slot);
  });

  it.each([
    [1, ['power-on']],
    [2, ['external']],
    [4, ['brown-out']],
    [8, ['watchdog']],
    [5, ['power-on', 'brown-out']],
  ] as const)('reset cause %d is %j', (byte, causes) => {
    expect(statusWith([33, byte])?.resetCauses).toEqual(causes);
  });

  it.each([
    [1, 'flash'],
    [2, 'EEPROM'],
    [4, 'RAM'],
    [8, 'clock'],
    [16, 'setup'],
  ] as const)('failed test %d is %s', (byte, test) => {
    expect(statusWith([46, byte])?.failedTests).toEqual([test]);
  });

  it('with an owner of 2, or a slot of 3, is none', () => {
    expect([statusWith([2, 2]), statusWith([26, 3])]).toEqual([null, null]);
  });
});
