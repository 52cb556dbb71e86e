import { describe, expect, it } from 'vitest';
import { FAULTS, isFaultKind, nextChange, type Fault, type FaultKind } from '../../../sim/faults/fault.ts';
import type { PlantFaults } from '../../../sim/plant/state.ts';
import { MINUTE, START } from '../../support/plant.ts';
import { AIR_CELSIUS, fault, FULL_FLOW, shedWith, type TestShed } from './board-support.ts';

/** A shed with one fault from its first moment, 20 min into a flood that was asked for at 1 min. */
const flooding = (kind: FaultKind): TestShed => {
  const shed = shedWith([fault(kind)]);
  shed.until(1);
  shed.on(40);
  shed.until(21);
  return shed;
};
const pumped = ({ plant }: TestShed): number => plant.state.pumpedLitresPerMinute;
const returned = ({ plant }: TestShed): number => plant.state.returnLitresPerMinute;
const expectNothingFlows = (shed: TestShed): void => {
  expect(pumped(shed)).toBe(0);
  expect(returned(shed)).toBe(0);
  expect(shed.sees('return-flow')!.litresPerMinute).toBeLessThan(2);
};

const broken = (kind: FaultKind): PlantFaults => flooding(kind).plant.state.faults;

/** What each fault must do: its words, in water and samples. */
const DOES: Readonly<Record<FaultKind, () => void>> = {
  'pump-dead': () => {
    const shed = flooding('pump-dead');
    expectNothingFlows(shed);
    expect(shed.sees('relay-read-back')!.closed).toBe(true);
    expect(shed.sees('pump-current')!.drawing).toBe(true);
  },
  'pump-unplugged': () => {
    const shed = flooding('pump-unplugged');
    expectNothingFlows(shed);
    expect(shed.sees('relay-read-back')!.closed).toBe(true);
    expect(shed.sees('pump-current')!.drawing).toBe(false);
  },
  'mains-lost': () => {
    const shed = shedWith([fault('mains-lost', 0, 60)], { mainsPresent: true });
    shed.until(1);
    shed.on(40);
    shed.until(21);
    expectNothingFlows(shed);
    expect(shed.sees('relay-read-back')!.closed).toBe(true);
    expect(shed.sees('pump-current')!.drawing).toBe(false);
    expect(shed.sees('mains')!.there).toBe(false);
    shed.until(60);
    expect(shed.sees('mains')!.there).toBe(true);
  },
  'relay-open': () => {
    const shed = flooding('relay-open');
    expectNothingFlows(shed);
    expect(shed.sees('relay-read-back')!.closed).toBe(false);
    expect(shed.sees('pump-current')!.drawing).toBe(false);
  },
  'relay-welded': () => {
    const shed = flooding('relay-welded');
    shed.off();
    shed.until(90);
    expect(pumped(shed)).toBeCloseTo(FULL_FLOW, 6);
    expect(shed.sees('relay-read-back')!.closed).toBe(true);
    expect(shed.sees('pump-current')!.drawing).toBe(true);
  },
  'filter-clogged': () => {
    expect(Math.abs(pumped(flooding('filter-clogged')) / FULL_FLOW - 1 / 3)).toBeLessThan(0.01);
  },
  'inlet-blocked': () => {
    const shed = flooding('inlet-blocked');
    const [first, second] = shed.plant.state.benches;
    expect(first!.drainableLitres).toBe(0);
    expect(second!.drainableLitres).toBeGreaterThan(30);
    expect(first!.heldLitres).toBeLessThan(second!.heldLitres);
  },
  'branch-clogging': () => {
    const day = 1440;
    const clogging = { ...fault('branch-clogging'), bench: 1, clogging: { endShare: 0.1, days: 2 } };
    const shed = shedWith([clogging]);
    const inflows = (minutes: number): readonly number[] => {
      shed.until(minutes);
      shed.on(10);
      shed.until(minutes + 5);
      return shed.plant.state.benches.map(({ inflowLitresPerMinute }) => inflowLitresPerMinute);
    };
    const [open, whole] = inflows(1);
    expect(open).toBeCloseTo(whole!, 9);
    const [other, half] = inflows(day);
    const [most, tenth] = inflows(2 * day - 30);
    // The pump splits anew: what the clogged branch does not take goes in part to the other.
    expect(half).toBeLessThan(0.65 * whole!);
    expect(tenth).toBeLessThan(0.2 * whole!);
    expect(other).toBeGreaterThan(open!);
    expect(most).toBeGreaterThan(other!);
    expect(most! + tenth!).toBeLessThan(open! + whole!);
  },
  'filter-clogging': () => {
    const shed = shedWith([fault('filter-clogging')]);
    const flowAt = (minutes: number): number => {
      shed.until(minutes);
      shed.on(10);
      shed.until(minutes + 5);
      return pumped(shed) / FULL_FLOW;
    };
    expect(flowAt(1)).toBeCloseTo(1, 3);
    // A day of 21 takes 1/21 of nine tenths.
    expect(flowAt(1440)).toBeCloseTo(1 - 0.9 / 21, 2);
  },
  'top-up-stopped': () => {
    expect(broken('top-up-stopped').topUpShare).toBe(0);
  },
  'top-up-salty': () => {
    expect(broken('top-up-salty').topUpSaltier).toBe(2);
  },
  // Acts on the one who doses: grower.test.ts.
  'probe-drifting': () => {
    expect(broken('probe-drifting')).toEqual(shedWith().plant.state.faults);
  },
  leak: () => {
    const shed = shedWith([fault('leak', 10)]);
    shed.until(70);
    expect(shed.plant.state.tank.litres).toBeCloseTo(600 - 60, 9);
    expect(shed.sees('leak')!.wet).toBe(true);
  },
  'flow-stuck-low': () => {
    const shed = flooding('flow-stuck-low');
    expect(returned(shed)).toBeGreaterThan(10);
    expect(shed.sees('return-flow')!.litresPerMinute).toBe(0);
  },
  'flow-stuck-high': () => {
    const shed = shedWith([fault('flow-stuck-high')]);
    shed.until(60);
    expect(returned(shed)).toBeLessThan(0.1);
    expect(shed.sees('return-flow')!.litresPerMinute).toBe(FULL_FLOW);
  },
  'flow-silent': () => {
    const shed = flooding('flow-silent');
    expect(returned(shed)).toBeGreaterThan(10);
    expect(shed.sees('return-flow')).toBeUndefined();
  },
  'air-silent': () => {
    const shed = flooding('air-silent');
    expect(shed.sees('air-temperature')).toBeUndefined();
    expect(shed.sees('humidity')).toBeDefined();
  },
  'air-open': () => {
    expect(flooding('air-open').sees('air-temperature')!.celsius).toBe(-127);
  },
  'air-in-sun': () => {
    const read = flooding('air-in-sun').sees('air-temperature')!.celsius;
    expect(Math.abs(read - AIR_CELSIUS - 15)).toBeLessThan(1);
  },
  'float-stuck-low': () => {
    const shed = flooding('float-stuck-low');
    expect(shed.plant.state.tank.litres).toBeGreaterThan(500);
    expect(shed.sees('tank-float')!.low).toBe(true);
  },
};

describe('each fault does what its words say', () => {
  it.each(Object.entries(FAULTS))('%s: %s', (kind) => {
    if (!isFaultKind(kind)) throw new Error(kind);
    DOES[kind]();
  });

  it.each([
    'flow-stuck-low',
    'flow-stuck-high',
    'flow-silent',
    'air-silent',
    'air-open',
    'air-in-sun',
    'float-stuck-low',
  ] as const)('%s leaves every litre where it would be without it', (kind) => {
    const shed = shedWith();
    shed.until(1);
    shed.on(40);
    shed.until(21);
    expect(flooding(kind).plant.state).toEqual(shed.plant.state);
  });
});

describe('a blocked inlet', () => {
  const drained = (faults: readonly Fault[], plants: readonly number[]): readonly number[] => {
    const shed = shedWith(faults);
    shed.plant.build.benches.forEach(({ plantings }, place) => {
      Object.assign(plantings[0]!, { plants: plants[place]! });
    });
    shed.until(1);
    shed.on(40);
    shed.until(21);
    return shed.plant.state.benches.map(({ drainableLitres }) => drainableLitres);
  };

  it('is that of the bench of the script', () => {
    const [first, second] = drained([{ ...fault('inlet-blocked'), bench: 1 }], [300, 300]);
    expect(first).toBeGreaterThan(30);
    expect(second).toBe(0);
  });

  it('is that of the second bench where the script names none and the first stands empty', () => {
    const [first, second] = drained([fault('inlet-blocked')], [0, 300]);
    expect(first).toBeGreaterThan(30);
    expect(second).toBe(0);
  });
});

describe('a branch that clogs', () => {
  const shares = (minutes: number, faults: readonly Fault[]): readonly number[] => {
    const shed = shedWith(faults);
    shed.until(minutes);
    return shed.plant.state.faults.branchShares;
  };

  it('is down to a tenth after 21 days unless told otherwise, and stays so', () => {
    const faults = [fault('branch-clogging')];
    expect(nextChange(faults, START)).toBe(START + 60 * MINUTE);
    expect(shares(21 * 60, faults)[0]).toBeCloseTo(1 - (0.9 * 21) / (21 * 24), 9);
  });

  it('may be two branches at once, each by its own course, and be mended', () => {
    const faults = [
      { ...fault('branch-clogging', 0, 36 * 60), bench: 0, clogging: { endShare: 0, days: 1 } },
      { ...fault('branch-clogging'), bench: 1, clogging: { endShare: 0.5, days: 1 } },
    ];
    expect(shares(12 * 60, faults)).toEqual([0.5, 0.75]);
    expect(shares(30 * 60, faults)).toEqual([0, 0.5]);
    expect(shares(40 * 60, faults)).toEqual([1, 0.5]);
  });
});

describe('a script of faults', () => {
  it('welds a relay in a flood, and the pump runs on for 60 min past its longest-on until the weld is gone', () => {
    const shed = shedWith([fault('relay-welded', 10, 100)]);
    shed.on(20);
    shed.until(120);
    expect(shed.ranMinutes()).toBeCloseTo(100, 9);
  });

  it('clogs the filter of a pump that is dead too, and nothing flows', () => {
    const shed = shedWith([fault('pump-dead'), fault('filter-clogged')]);
    shed.on(20);
    shed.until(10);
    expect(pumped(shed)).toBe(0);
  });

  it('knows its next change: 5, 10, 20 and then none', () => {
    const script = [fault('leak', 5, 20), fault('pump-dead', 10)];
    const next = (minutes: number): number => (nextChange(script, START + minutes * MINUTE) - START) / MINUTE;
    expect([0, 5, 9.99, 10, 20].map(next)).toEqual([5, 10, 10, 20, Infinity]);
  });

  it('takes no word for a fault that is none: toString, leaks and nothing', () => {
    expect(['leak', 'toString', 'leaks', ''].map(isFaultKind)).toEqual([true, false, false, false]);
  });
});
