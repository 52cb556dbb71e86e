import { describe, expect, it } from 'vitest';
import { type LinkAsked } from '../../../firmware-host/devices/board-link.ts';
import { keeperBoard } from './keeper-board.ts';
import { CLAIM, HEARTBEAT, HELLO, stubSetup } from './keeper/keeper-stub.ts';
import { WIRING, shed, keeperShed, upShed, typesHeard, whyOf } from './keeper-shed.ts';

describe('a board with a keeper that must not be driven', () => {
  it.each([
    [
      'flashed for another relay',
      { setup: [1, 0, 9, 1, ...stubSetup().slice(4)] },
      /relay on pin 9/,
      'keeps',
    ],
    ['of another protocol', { major: 3 }, /keeper protocol 3\.0/, 'keeps'],
    ['not set up', { notSetUp: true, setup: stubSetup().fill(0xff) }, /not set up/, undefined],
  ] as const)(
    '%s: its line is opened once in 5 min, and it is asked who it is once a minute',
    async (_, change, why, keeps) => {
      const found = keeperShed({ ...change, setup: 'setup' in change ? [...change.setup] : stubSetup() });
      await found.pass(300);
      expect(whyOf(found.link.link())).toMatch(why);
      expect(found.link.link()).toEqual(
        expect.objectContaining(keeps === undefined ? { kind: 'down' } : { kind: 'down', keeper: keeps }),
      );
      expect(found.board.opened()).toBe(1);
      expect(typesHeard(found, CLAIM)).toBe(0);
      expect(typesHeard(found, HELLO)).toBeLessThanOrEqual(6);
      expect(found.samples.length).toBeGreaterThan(100);
    },
  );

  it('is none that this program was given no setup for', async () => {
    const other = shed((now) => keeperBoard(now), { keeper: undefined } as unknown as Partial<LinkAsked>);
    await other.pass(8);
    expect(whyOf(other.link.link())).toMatch(/not told the farm's setup/);
  });
});

describe('a board whose keeper does not answer', () => {
  it('is reset by this host 4 times in 20 min, not 200: opening the line resets it, and a reset stops its flood', async () => {
    const found = await upShed();
    found.board.stub.state.deaf = [HELLO, 2, HEARTBEAT];
    const before = found.board.opened();
    await found.pass(1200);
    const times = found.board.opened() - before;
    expect(times).toBeGreaterThanOrEqual(3);
    expect(times).toBeLessThanOrEqual(5);
    expect(found.link.link()).toMatchObject({ kind: 'down', keeper: 'keeps' });
  });

  it('is tried at once when it has been pulled out and plugged in again', async () => {
    const found = await upShed();
    found.board.stub.state.deaf = [HELLO, 2, HEARTBEAT];
    await found.pass(1200);
    found.board.stub.state.deaf = [];
    found.usb.unplug('usb');
    await found.pass(5);
    found.usb.plug('usb', found.board.peer);
    await found.pass(12);
    expect(found.link.link().kind).toBe('up');
  });
});

describe('a keeper of another shed, on the only line there is', () => {
  it('is not driven, and not reset more than 5 times in 20 min by being asked who it is', async () => {
    const found = keeperShed({}, { wiring: { ...WIRING, identity: 'Our board' } });
    await found.pass(1200);
    expect(whyOf(found.link.link())).toMatch(/another board answers: "RillkeeperBoard"/);
    expect(found.board.stub.heard).toEqual([]);
    expect(found.board.opened()).toBeLessThanOrEqual(5);
  });
});

describe('a board with a keeper that has no pin for what is wired', () => {
  it('is not claimed, keeps its line, and says which part it is', async () => {
    const wiring = { ...WIRING, leakSensor: { pin: 6, reads: 'low' } } as const;
    const found = keeperShed({}, { wiring });
    await found.pass(60);
    expect(whyOf(found.link.link())).toMatch(
      /wires board\.leakSensor to pin 6, which this board does not have/,
    );
    expect([found.board.opened(), typesHeard(found, CLAIM)]).toEqual([1, 0]);
  });

  it('says rather what it was flashed for, where that differs too', async () => {
    const wiring = { ...WIRING, leakSensor: { pin: 6, reads: 'low' } } as const;
    const setup = [...stubSetup()];
    setup[23] = 11;
    const found = keeperShed({ setup }, { wiring });
    await found.pass(20);
    expect(whyOf(found.link.link())).toMatch(/a leak sensor on pin 11; by the farm file it is on pin 0/);
  });
});
