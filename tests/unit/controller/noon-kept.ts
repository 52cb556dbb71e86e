import type { Kept } from '../../../src/ports/board.ts';
import { exampleFarm } from '../../support/farm.ts';
import { NOTHING_KEPT } from '../verify/kept.ts';
import type { seen } from './noon.ts';
import { linkIs, toldFrom, type Told } from './noon.ts';

/** A board that keeps the plants is heard, and tells this of its log. */
export const up = (kept: Partial<Kept> = {}): ReturnType<typeof linkIs> =>
  linkIs({ kind: 'up', kept: { ...NOTHING_KEPT, ...kept } });
/** It is not heard any more. */
export const AWAY = linkIs({ kind: 'down', why: 'unplugged', keeper: 'keeps' });
export const NOTHING = (): readonly [] => [];
/** Warm air, and water that comes back while the pump is asked on. */
export const wet = (told: Told) => (): readonly Parameters<typeof seen>[1][] => [
  { channel: 'air-temperature', celsius: 30 },
  { channel: 'return-flow', litresPerMinute: told.state().guard.asked.kind === 'on' ? 40 : 0 },
];
/** A host that starts at noon at such a board. */
export const begun = (kept: Partial<Kept> = {}, minutes = 0): Told =>
  toldFrom(exampleFarm, minutes, { kind: 'up', kept: { ...NOTHING_KEPT, ...kept } });
export const verdicts = (told: Told): readonly string[] =>
  told
    .entries()
    .flatMap((entry) =>
      entry.kind === 'verdict' ? [`${entry.flood} ${entry.verdict.kind} at ${entry.at / 60_000}`] : [],
    );
