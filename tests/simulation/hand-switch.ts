import type { Plant } from '../../sim/plant/plant.ts';
import type { Sample } from '../../src/ports/sample.ts';

/** A switch behind the relay that somebody has turned by hand: the pump runs past it, or not at all. */
export interface HandSwitch {
  readonly left: 'on' | 'off';
  readonly fromMillis: number;
  readonly untilMillis: number;
}

export interface HandSwitched {
  readonly works: (plant: Plant) => number;
  readonly heard: (samples: readonly Sample[]) => readonly Sample[];
}

/** For `works` and `heard` of a simulated run: the pump goes by the switch, and its current with it; the relay knows of nothing. */
export const handSwitched = ({ left, fromMillis, untilMillis }: HandSwitch): HandSwitched => {
  let pump: Plant | null = null;
  const turned = (plant: Plant): boolean =>
    plant.state.atMillis >= fromMillis && plant.state.atMillis < untilMillis;
  return {
    works: (plant) => {
      if (pump === null) {
        const setPump = plant.setPump.bind(plant);
        plant.setPump = (on) => {
          setPump(turned(plant) ? left === 'on' : on);
        };
        pump = plant;
      }
      const { atMillis } = plant.state;
      return [fromMillis, untilMillis].find((moment) => moment > atMillis) ?? Infinity;
    },
    heard: (samples) =>
      samples.map((sample) =>
        sample.channel === 'pump-current' && pump !== null
          ? { ...sample, drawing: pump.state.pumpOn }
          : sample,
      ),
  };
};
