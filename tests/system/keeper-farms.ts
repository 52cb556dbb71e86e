import { parseFarm } from '../../src/farm/parse.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import { setupBlock } from '../../src/farm/keeper-setup.ts';
import { parse } from 'yaml';
import { ownFolder, realFarmText, written } from './rillkeeper.ts';

export interface RealFarm {
  readonly file: string;
  readonly farm: Farm;
  readonly wiring: Wiring;
  /** The setup block of its board, with the watchdog on or off. */
  readonly setup: (watchdog?: 'on' | 'off') => number[];
}

export const realFarm = (name: string, change: (text: string) => string = (text) => text): RealFarm => {
  const text = change(realFarmText(name));
  const parsed = parseFarm(parse(text));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  const { farm } = parsed;
  const wiring = farm.board!;
  return {
    file: written(ownFolder(), 'real.yaml', text),
    farm,
    wiring,
    setup: (watchdog) => [...setupBlock(farm, wiring, watchdog)],
  };
};
