import { describe, expect, it } from 'vitest';
import { createParser } from '../../../sim/board/firmata/parser.ts';
import { wiringSchema } from '../../../src/farm/wiring-schema.ts';
import type { Link } from '../../../src/ports/board.ts';
import type { Sample } from '../../../src/ports/sample.ts';
import { seconds } from '../../../src/units/quantity.ts';
import { onDesk } from '../board/desk.ts';
import { KEEPER_OUTPUTS } from './keeper-board.ts';
import { CLAIM, HEARTBEAT, HOLD, LET_GO } from './keeper/keeper-stub.ts';
import { RELAY, shed, keeperShed, upShed, typesHeard, whyOf } from './keeper-shed.ts';

describe('a board with a keeper', () => {
  it('is claimed, and its link says what happened before', async () => {
    const { board, link } = await upShed();
    expect(link.link()).toMatchObject({ kind: 'up', kept: { runs: [], running: null } });
    expect(board.stub.state.owner).toBe('host');
    expect(link.identity()?.board.firmwareName).toBe('RillkeeperBoard');
  });

  it('has its outputs and its button left alone by Firmata, through connect, flood and signals', async () => {
    const { board, link, pass } = await upShed();
    link.command({ kind: 'pump-on', longest: seconds(600) });
    link.show({ buzzer: 'sounding', lamp: 'lit' });
    await pass(5);
    expect(board.stub.state.pump).not.toBeNull();
    const driving = createParser()
      .push(Uint8Array.from(board.heard))
      .filter((message) => {
        if (message.kind === 'digital-port-write') return true;
        return 'pin' in message && [...KEEPER_OUTPUTS, 8].includes(message.pin);
      });
    expect(driving).toEqual([]);
    const beats = board.stub.heard.filter(({ type }) => type === HEARTBEAT);
    expect(beats.at(-1)?.body[6]).toBe(3);
  });

  it('is read by Firmata as any other: thermistor, float and mains', async () => {
    const { board, samples, pass } = await upShed();
    board.digital.set(9, 0).set(4, 1);
    board.analog.set(1, 512);
    await pass(15);
    const last = (channel: Sample['channel']): Sample | undefined =>
      samples.findLast((sample) => sample.channel === channel);
    expect(last('mains')).toMatchObject({ there: true });
    expect(last('tank-float')).toMatchObject({ low: false });
    expect(last('water-temperature')).toMatchObject({ celsius: expect.closeTo(25, 0) as number });
    board.digital.set(9, 1);
    await pass(15);
    expect(samples.findLast(({ channel }) => channel === 'mains')).toMatchObject({ there: false });
  });

  it('has the pump back 10 s after the last completed tick, and the host hears of it', async () => {
    const { board, link, pass } = await upShed();
    await pass(8, 'no-ticks');
    expect([board.stub.state.owner, link.link().kind]).toEqual(['host', 'up']);
    const seen: Link[] = [];
    for (let second = 0; second < 5; second += 1) {
      await pass(1, 'no-ticks');
      seen.push(link.link());
    }
    expect(seen.find(({ kind }) => kind === 'down')).toMatchObject({
      keeper: 'keeps',
      why: /taken the pump/,
    });
    expect(link.counts().connections).toBe(1);
  });

  it('is told of a hold, which a stock board is not', async () => {
    const own = await upShed();
    own.link.command({ kind: 'hold', longest: seconds(600) });
    await own.pass(2);
    expect(typesHeard(own, HOLD)).toBe(1);
    const stock = shed(() => onDesk());
    await stock.pass(6);
    const before = stock.link.counts();
    stock.link.command({ kind: 'hold', longest: seconds(600) });
    stock.link.command({ kind: 'release' });
    await stock.pass(2);
    expect(stock.link.counts()).toEqual(before);
    expect(stock.board.levelOf(RELAY)).toBe(0);
  });

  it('keeps its plants, by what is last known, when the cable is pulled; and counts what is asked meanwhile', async () => {
    const { link, usb, pass } = await upShed();
    usb.unplug('usb');
    await pass(1);
    expect(link.link()).toMatchObject({
      kind: 'down',
      keeper: 'keeps',
      why: expect.stringMatching(/unplugged|no such port/) as string,
    });
    link.command({ kind: 'pump-on', longest: seconds(60) });
    expect(link.counts().refusedCommands).toBe(1);
    expect(link.keeperState()).toMatchObject({ owner: 'unknown', status: { resets: 1 } });
  });

  it('that has reset itself is connected anew, and its log read from where it was left', async () => {
    const found = await upShed();
    const { board, link, now, pass } = found;
    board.stub.run(0x15, 5, 3);
    await pass(3);
    board.stub.run(0x20, 2, 2);
    board.peer.reset(now());
    await pass(10);
    expect([board.opened(), link.link().kind]).toEqual([2, 'up']);
    expect(link.link()).toMatchObject({ kept: { runs: [{ seconds: 2, begunBy: 'board' }], forgotten: 0 } });
  });

  it('is let go of at the end, and its running flood goes on', async () => {
    const found = await upShed();
    const { board, link, pass } = found;
    link.command({ kind: 'pump-on', longest: seconds(900) });
    await pass(3);
    await link.close();
    expect([typesHeard(found, LET_GO), board.stub.state.owner]).toEqual([1, 'keeper']);
    expect(board.stub.state.pump).not.toBeNull();
    const { length } = board.heard;
    link.alive('unknown');
    link.command({ kind: 'pump-off' });
    await pass(3);
    expect(board.heard.length).toBe(length);
  });

  it('that is only looked at is up and read, and nothing is claimed', async () => {
    const found = keeperShed({}, { use: 'look' });
    await found.pass(10);
    found.link.command({ kind: 'pump-on', longest: seconds(60) });
    await found.pass(2);
    expect(found.link.link()).toEqual({ kind: 'up' });
    expect([typesHeard(found, CLAIM), typesHeard(found, HEARTBEAT), found.board.stub.state.owner]).toEqual([
      0,
      0,
      'keeper',
    ]);
    expect(found.samples.some(({ channel }) => channel === 'mains')).toBe(true);
    expect(found.link.keeperState()).toMatchObject({ owner: 'keeper' });
  });
});

describe('a stock board', () => {
  it('cannot drive a bare probe, and the reason says so', async () => {
    const probe = wiringSchema.parse({ relay: { pin: RELAY }, probe: { pin: 'A2', drivenBy: [10, 11] } });
    const stock = shed(() => onDesk(), { wiring: probe });
    await stock.pass(6);
    expect(whyOf(stock.link.link())).toMatch(
      /bare probe \(board\.probe\.drivenBy\), which stock firmware cannot/,
    );
  });

  it('has no keeper to tell of, and a tick says nothing to it', async () => {
    const stock = shed(() => onDesk());
    await stock.pass(6);
    expect([stock.link.link(), stock.link.keeperState()]).toEqual([{ kind: 'up' }, null]);
  });
});
