import { describe, expect, it } from 'vitest';
import { virtualTime } from '../../../firmware-host/virtual-time.ts';
import { seededDice } from '../../../sim/dice.ts';
import { CENTRAL } from '../../../sim/plant/judgements.ts';
import { openWiredShed, type WiredShed } from '../../../sim/run/wired-shed.ts';
import { monotonicMillis } from '../../../src/time/instant.ts';
import { MINUTE, START } from '../../support/plant.ts';
import { bytesOf, hexOf } from '../board/desk.ts';
import { FITTED_FARM, STILL_SKY, WIRING } from './pinned-shed.ts';

const HOUR = 60 * MINUTE;

const opened = (startMillis = START): WiredShed =>
  openWiredShed({
    farm: FITTED_FARM,
    wiring: WIRING,
    sky: STILL_SKY,
    judgements: CENTRAL,
    faults: [],
    failing: [],
    dice: seededDice(5),
    startMillis,
  });

describe('a shed behind the pins of a board', () => {
  it('has a board that says who it is 1.6 s after its port is opened, and nothing before', () => {
    const { peer } = opened();
    peer.open(START);
    peer.advance(START + 1599);
    expect(peer.take()).toHaveLength(0);
    peer.advance(START + 1600);
    const words = Buffer.from('SimulatedFirmata.ino').toJSON().data;
    const name = words.flatMap((letter) => [letter, 0]);
    expect(hexOf(peer.take())).toBe(hexOf([0xf9, 2, 8, 0xf0, 0x79, 2, 8, ...name, 0xf7]));
  });

  it('lets the pump rest through the start of the board and until it is told otherwise', () => {
    const { peer, plant } = opened();
    peer.open(START);
    peer.advance(START + 2000);
    expect(plant.state.pumpOn).toBe(false);
    // Pin 7 an output, then high.
    peer.receive(bytesOf('F4 07 01 F5 07 01'), START + 2000);
    expect(plant.state.pumpOn).toBe(true);
    peer.receive(bytesOf('F5 07 00'), START + 2001);
    expect(plant.state.pumpOn).toBe(false);
  });

  it('a reset of the board lets go of the relay', () => {
    const { peer, plant } = opened();
    peer.open(START);
    peer.advance(START + 2000);
    peer.receive(bytesOf('F4 07 01 F5 07 01'), START + 2000);
    peer.reset(START + 3000);
    expect(plant.state.pumpOn).toBe(false);
  });

  it('goes on with its clock, and says each time that its pins may have moved', () => {
    const shed = opened();
    const time = virtualTime(START);
    let moved = 0;
    shed.live(time.timers, () => {
      moved += 1;
    });
    time.advance(monotonicMillis(START + 10 * MINUTE));
    expect(shed.plant.state.atMillis).toBe(START + 10 * MINUTE);
    // A look each second, the first at once; no pulses in a rest but those of the meter's noise.
    expect(moved).toBeGreaterThanOrEqual(601);
  });

  it('has the grower fill the tank at 7:00, where it is topped up by hand', () => {
    // 6:30 in Lisbon, which is an hour ahead of Greenwich in summer.
    const start = START + 5.5 * HOUR;
    const shed = opened(start);
    const time = virtualTime(start);
    shed.live(time.timers, () => undefined);
    const { tank } = shed.plant.state;
    tank.litres = 300;
    tank.salts = 300;
    time.advance(monotonicMillis(start + 29 * MINUTE));
    expect(tank.litres).toBeCloseTo(300, 6);
    time.advance(monotonicMillis(start + 31 * MINUTE));
    expect(tank.litres).toBeCloseTo(FITTED_FARM.tank.usualLitres, 6);
  });
});
