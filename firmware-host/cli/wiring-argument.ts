import type { Wiring } from '../../src/farm/farm.ts';
import type { AcceptedFarm } from './farm-argument.ts';
import { Refusal } from './refusal.ts';

/** @throws Refusal when the farm file names no pins */
export const wiringOf = ({ farm, file }: Pick<AcceptedFarm, 'farm' | 'file'>): Wiring => {
  if (farm.board !== undefined) return farm.board;
  throw new Refusal(
    `${file}: the file has no "board:" section, so nobody knows which pin carries what. hardware-notes/wiring.md has one to begin with.`,
  );
};
