import { describe, expect, it } from 'vitest';
import { keeperFindings, type Finding } from '../../../firmware-host/cli/keeper-findings.ts';
import { tableRows } from '../../../firmware-host/cli/keeper-tables.ts';
import type { KeeperFarm } from '../../../firmware-host/cli/keeper-farm.ts';
import type { Hello } from '../../../firmware-host/devices/keeper/board-message.ts';
import { statusIn, type KeeperStatus } from '../../../firmware-host/devices/keeper/status.ts';
import { setupBlock } from '../../../src/farm/keeper-setup.ts';
import type { KeeperTable } from '../../../src/plan/keeper-table.ts';
import { farmWith } from '../farm/example.ts';
import { EVERY_PART } from '../../support/wiring.ts';

const farm = farmWith();
const TABLE: KeeperTable = {
  parts: [{ fromMinute: 0, restSeconds: 1500, coolRestSeconds: 1500, floodSeconds: 1200 }],
  longestRestSeconds: 12_600,
  returnLagSeconds: 480,
};
const READY = {
  farm,
  wiring: EVERY_PART,
  date: '2026-07-14',
  table: TABLE,
  says: [],
} as unknown as KeeperFarm;
const HELLO: Hello = {
  protocol: { major: 1, minor: 0 },
  firmware: { major: 1, minor: 2 },
  setup: setupBlock(farm, EVERY_PART),
};
/** A board in which all is well: brown-out at 4.3 V, power-on, 600 bytes of room. */
const WELL: KeeperStatus = {
  ...statusIn(new Uint8Array(49))!,
  resetCauses: ['power-on'],
  fuses: { low: 0xff, high: 0xde, extended: 0xfc, lock: 0xff },
  roomBytes: 600,
};
const findings = (status: Partial<KeeperStatus> = {}, hello: Partial<Hello> = {}): readonly Finding[] =>
  keeperFindings(READY, { ...HELLO, ...hello }, { ...WELL, ...status });
const notWell = (...given: Parameters<typeof findings>): readonly (readonly [string, string])[] =>
  findings(...given).flatMap(({ name, verdict }) => (verdict === 'well' ? [] : [[name, verdict] as const]));

describe('what a board says of itself', () => {
  it('when all is well is all well, with versions', () => {
    expect(notWell()).toEqual([]);
    expect(findings()[0]?.says).toBe('Firmware 1.2, keeper protocol 1.0.');
  });

  it.each<readonly [string, Parameters<typeof findings>, string, string]>([
    ['each failed self-test', [{ failedTests: ['flash'] }], 'self-tests', 'failed'],
    ['a watchdog reset', [{ resetCauses: ['watchdog'] }], 'reset', 'warning'],
    ['a brown-out', [{ resetCauses: ['power-on', 'brown-out'] }], 'reset', 'warning'],
    [
      'a brown-out level that is too low',
      [{ fuses: { ...WELL.fuses, extended: 0xfd } }],
      'brown-out',
      'warning',
    ],
    ['63 bytes of room', [{ roomBytes: 63 }], 'memory', 'failed'],
    ['bytes lost', [{ bytesLost: 1 }], 'line', 'warning'],
    ['messages dropped', [{ framesDropped: 2 }], 'line', 'warning'],
    ['the watchdog off', [{}, { setup: setupBlock(farm, EVERY_PART, 'off') }], 'watchdog', 'warning'],
    ['another limit', [{}, { setup: HELLO.setup.with(6, 31) }], 'setup', 'failed'],
  ])('%s is told', (_, given, name, verdict) => {
    expect(notWell(...given)).toEqual([[name, verdict]]);
  });

  it('an external reset, as by opening the port, is no reason to worry', () => {
    expect(notWell({ resetCauses: ['external'] })).toEqual([]);
  });
});

describe('two tables side by side', () => {
  const part = (fromMinute: number, restSeconds: number): KeeperTable['parts'][number] => ({
    fromMinute,
    restSeconds,
    coolRestSeconds: restSeconds,
    floodSeconds: 1200,
  });
  const of = (...parts: KeeperTable['parts'][number][]): KeeperTable => ({ ...TABLE, parts });

  it('have a row from each change of either, and say where they are the same', () => {
    const rows = tableRows(of(part(360, 1500), part(1200, 9000)), of(part(420, 1500), part(1200, 9030)));
    expect(rows.map(({ from, same }) => [from, same])).toEqual([
      ['06:00', false],
      ['07:00', true],
      ['20:00', false],
    ]);
    expect(rows[0]).toMatchObject({
      plan: 'rest 25 min, flood 20 min',
      board: 'rest 150.5 min, flood 20 min',
    });
  });

  it('say the rest in the cool where it is another one', () => {
    const [row] = tableRows(of({ ...part(0, 1500), coolRestSeconds: 1800 }), of(part(0, 1500)));
    expect(row?.plan).toBe('rest 25 min (30 min in the cool), flood 20 min');
    expect(row?.same).toBe(false);
  });
});
