import { describe, expect, it } from 'vitest';
import type { Failing, Way } from '../../../sim/faults/failing.ts';
import type { Wiring } from '../../../src/farm/farm.ts';
import { farmWith } from '../../support/farm.ts';
import { MINUTE, START } from '../../support/plant.ts';
import { fault } from '../sim-run/board-support.ts';
import { AIR_CELSIUS, FITTED, FITTED_FARM, pinnedShed, WIRING } from '../sim-run/pinned-shed.ts';

const lasting = (part: keyof Wiring, way: Way): { readonly failing: readonly Failing[] } => ({
  failing: [{ part, way, fromMillis: START, untilMillis: Infinity }],
});

describe('the pin of the relay', () => {
  it('pulls it at its energised level, and lets it rest at the other and while it floats', () => {
    for (const energised of ['high', 'low'] as const) {
      const shed = pinnedShed({ wiring: { ...WIRING, relay: { pin: 7, energised } } });
      const pulls = energised === 'high' ? 1 : 0;
      expect(shed.plant.state.pumpOn).toBe(false);
      shed.relay(pulls);
      expect([shed.pins.relayPulled(), shed.plant.state.pumpOn]).toEqual([true, true]);
      shed.relay(pulls === 1 ? 0 : 1);
      expect([shed.pins.relayPulled(), shed.plant.state.pumpOn]).toEqual([false, false]);
      shed.relay(pulls);
      shed.relay('floating');
      expect(shed.plant.state.pumpOn).toBe(false);
    }
  });

  it('on a normally closed contact runs the pump while the relay rests, also before anything drives it', () => {
    const shed = pinnedShed({ farm: farmWith(FITTED, [['deadBoard'], 'pump-runs']) });
    expect(shed.plant.state.pumpOn).toBe(true);
    shed.relay(1);
    expect(shed.plant.state.pumpOn).toBe(false);
    shed.relay('floating');
    expect(shed.plant.state.pumpOn).toBe(true);
  });

  it('is the only pin that moves the pump', () => {
    const shed = pinnedShed();
    for (let pin = 0; pin < 20; pin += 1) if (pin !== 7) shed.pins.world.drive(pin, 1);
    expect(shed.plant.state.pumpOn).toBe(false);
    expect(shed.pins.outputOf(6)).toBe(1);
  });
});

describe('contacts', () => {
  it('to ground read 0 while the thing is so and 1 while not: the relay, and nobody wet or low', () => {
    const shed = pinnedShed();
    const all = (): readonly unknown[] => [3, 4, 9, 10].map(shed.digital);
    expect(all()).toEqual([1, 1, 1, 1]);
    shed.relay(1);
    shed.to(0.1);
    expect(all()).toEqual([0, 1, 1, 1]);
  });

  it('that read high are the other way round', () => {
    const wiring: Wiring = { ...WIRING, relayReadBack: { pin: 3, reads: 'high' } };
    const shed = pinnedShed({ wiring });
    expect(shed.digital(3)).toBe(0);
    shed.relay(1);
    shed.to(0.1);
    expect(shed.digital(3)).toBe(1);
  });

  it('a float reads low from 20 L above where the pump draws air, and a leak sensor from a litre on the floor', () => {
    const shed = pinnedShed({ faults: [fault('leak')] });
    const { tank } = shed.plant.state;
    shed.to(0.9);
    expect(shed.digital(9)).toBe(1);
    shed.to(1.2);
    expect(shed.digital(9)).toBe(0);
    tank.litres = FITTED_FARM.tank.dryLitres + 21;
    shed.to(1.3);
    expect(shed.digital(4)).toBe(1);
    tank.litres = FITTED_FARM.tank.dryLitres + 19;
    shed.to(1.4);
    expect(shed.digital(4)).toBe(0);
  });

  it('a mains contact is closed while the mains are there, and open from when they are lost', () => {
    const shed = pinnedShed({
      farm: farmWith(FITTED, [['evidence', 'mainsPresent'], true]),
      wiring: { ...WIRING, mainsPresent: { pin: 11, reads: 'low' } },
      faults: [fault('mains-lost', 5, 10)],
    });
    const levels = [4, 6, 11].map((minutes) => {
      shed.to(minutes);
      return shed.digital(11);
    });
    expect(levels).toEqual([0, 1, 0]);
  });

  it('a return switch closes with the flow of a flood', () => {
    const farm = farmWith(FITTED, [['evidence', 'returnFlow'], 'switch']);
    const shed = pinnedShed({ farm, wiring: { ...WIRING, returnFlow: { pin: 2, reads: 'low' } } });
    expect(shed.digital(2)).toBe(1);
    shed.relay(1);
    shed.to(10);
    expect(shed.digital(2)).toBe(0);
  });

  it('a button is up until a finger presses it', () => {
    const shed = pinnedShed();
    expect(shed.digital(8)).toBe('floating');
    shed.pins.press('down');
    expect(shed.digital(8)).toBe(0);
    shed.pins.press('up');
    expect(shed.digital(8)).toBe(1);
  });
});

describe('the pulses of a return meter', () => {
  /** Falling edges of pin 2 in a minute, looked at whenever the shed says that a pin may change. */
  const pulsesIn = (shed: ReturnType<typeof pinnedShed>, fromMinute: number): number => {
    shed.to(fromMinute);
    let before = shed.digital(2);
    let falls = 0;
    for (let now = START + fromMinute * MINUTE; now < START + (fromMinute + 1) * MINUTE;) {
      now = Math.max(now + 1, Math.min(shed.pins.nextDue(), START + (fromMinute + 1) * MINUTE));
      shed.pins.advance(now);
      if (before === 1 && shed.digital(2) === 0) falls += 1;
      before = shed.digital(2);
    }
    return falls;
  };

  it('are 3 for each litre that returns, and none while none does', () => {
    const shed = pinnedShed();
    expect(pulsesIn(shed, 0)).toBeLessThanOrEqual(1);
    shed.relay(1);
    const pulses = pulsesIn(shed, 15);
    const litres = shed.plant.state.returnLitresPerMinute;
    // A flood that has stood for 15 min returns all of its 40 L/min but what the roots take up.
    expect(litres).toBeGreaterThan(38);
    expect(Math.abs(pulses / (3 * litres) - 1)).toBeLessThan(0.03);
  });
});

describe('converter pins', () => {
  const shed = pinnedShed();
  shed.to(1);

  // By the definition of B a thermistor of 10 k and 3950 K has 8772 Ω at 28 °C.
  it('a thermistor to ground in air of 28 °C reads 478 counts, give or take its noise of 0.2 °C', () => {
    expect(AIR_CELSIUS).toBe(28);
    expect(Math.abs(shed.analog(0) - (1024 * 8772) / 18_772)).toBeLessThan(12);
  });

  it('the level of 520 of 600 L reads 887 counts, give or take its noise of 2 L', () => {
    expect(Math.abs(shed.analog(5) - (1023 * 520) / 600)).toBeLessThan(15);
  });

  it('a solution of 1.6 mS/cm at 28 °C reads 347 counts of 5 mS/cm', () => {
    const { strengthMillisiemensPerCm: strength } = FITTED_FARM.tank;
    expect(Math.abs(shed.analog(2) - (1024 * strength * 1.06) / 5)).toBeLessThan(2);
  });

  it('the current of the pump reads above its threshold while the contact is closed, and 4 while not', () => {
    const other = pinnedShed();
    expect(other.analog(3)).toBe(4);
    other.relay(1);
    other.to(0.1);
    expect(other.analog(3)).toBe(200);
  });

  it('an air thermometer of which nothing is heard, or that is open, reads a cut cable: 1023, or 0', () => {
    for (const kind of ['air-silent', 'air-open'] as const) {
      const toGround = pinnedShed({ faults: [fault(kind)] });
      const airThermistor = { ...WIRING.airThermistor, wired: 'to-reference' } as const;
      const toReference = pinnedShed({ faults: [fault(kind)], wiring: { ...WIRING, airThermistor } });
      expect([toGround.analog(0), toReference.analog(0)]).toEqual([1023, 0]);
    }
  });
});

describe('a part that fails', () => {
  it.each<readonly [keyof Wiring, (shed: ReturnType<typeof pinnedShed>) => unknown, unknown]>([
    ['relayReadBack', (shed) => shed.digital(3), 1],
    ['tankFloat', (shed) => shed.digital(4), 1],
    ['leakSensor', (shed) => shed.digital(9), 1],
    ['overflowFloat', (shed) => shed.digital(10), 1],
    ['airThermistor', (shed) => shed.analog(0), 1023],
    ['waterThermistor', (shed) => shed.analog(1), 1023],
    ['probe', (shed) => shed.analog(2), 0],
    ['pumpCurrent', (shed) => shed.analog(3), 0],
    ['humidity', (shed) => shed.analog(4), 0],
    ['tankLevel', (shed) => shed.analog(5), 0],
  ])('%s with its cable cut during a flood', (part, read, cut) => {
    const shed = pinnedShed(lasting(part, 'off'));
    const well = pinnedShed();
    for (const one of [shed, well]) {
      one.relay(1);
      one.plant.state.tank.litres = FITTED_FARM.tank.dryLitres + 10;
      one.to(1);
    }
    expect(read(shed)).toBe(cut);
    if (part !== 'leakSensor' && part !== 'overflowFloat') expect(read(well)).not.toBe(cut);
  });

  it('a meter with its cable cut gives no pulse', () => {
    const shed = pinnedShed(lasting('returnFlow', 'off'));
    shed.relay(1);
    shed.to(15);
    const level = shed.digital(2);
    shed.to(16);
    expect(shed.digital(2)).toBe(level);
    // Nothing but the next look is due.
    expect(shed.pins.nextDue() - (START + 16 * MINUTE)).toBe(1000);
  });

  it('only for its time: a float that is wrong from minute 1 to 2', () => {
    const part = 'tankFloat';
    const failing = [
      { part, way: 'wrong', fromMillis: START + MINUTE, untilMillis: START + 2 * MINUTE },
    ] as const;
    const shed = pinnedShed({ failing });
    const seen = [0.9, 1.5, 2.1].map((minutes) => {
      shed.to(minutes);
      return shed.digital(4);
    });
    expect(seen).toEqual([1, 0, 1]);
  });
});
