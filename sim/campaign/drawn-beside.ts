import type { Dice } from '../dice.ts';
import { BESIDE_FAULT_KINDS, type BesideFaultKind, type InjectorName } from '../faults/injectors.ts';
import type { BesideFault, WayOut } from './script.ts';

const MINUTE = 60_000;
/** In so many of the seeds disk or network break as well, in up to so many ways. */
const SHARE = 0.5;
const KINDS_MOST = 3;
/** Long enough for most of them to be noticed, and to be called out. */
const MINUTES = { least: 3, most: 600 } as const;
const WAYS_OUT: readonly WayOut[] = ['modem', 'mail', 'webhook'];

export const isBeside = (name: InjectorName): name is BesideFaultKind =>
  BESIDE_FAULT_KINDS.some((kind) => kind === name);

/** What of disk and network breaks in a seed, by dice of its own: the faults of the shed are drawn as they always were. */
export const drawnBeside = (
  dice: Dice,
  act: { readonly from: number; readonly until: number; readonly pair?: readonly InjectorName[] },
): readonly BesideFault[] => {
  const kinds = new Set((act.pair ?? []).filter(isBeside));
  const count = dice() < SHARE ? 1 + Math.floor(dice() * KINDS_MOST) : 0;
  while (kinds.size < count) {
    const kind = BESIDE_FAULT_KINDS[Math.floor(dice() * BESIDE_FAULT_KINDS.length)];
    if (kind !== undefined) kinds.add(kind);
  }
  return [...kinds].map((kind): BesideFault => {
    const drawn = (MINUTES.least + (MINUTES.most - MINUTES.least) * dice()) * MINUTE;
    const millis = Math.min(drawn, act.until - act.from);
    const fromMillis = Math.round(act.from + dice() * (act.until - act.from - millis));
    const span = { fromMillis, untilMillis: Math.round(fromMillis + millis) };
    const way = WAYS_OUT[Math.floor(dice() * WAYS_OUT.length)] ?? 'modem';
    if (kind === 'disk-failing') return { kind, medium: dice() < 0.5 ? 'error' : 'read-only', ...span };
    return kind === 'channel-refusing' || kind === 'channel-hung'
      ? { kind, way, ...span }
      : { kind, ...span };
  });
};
