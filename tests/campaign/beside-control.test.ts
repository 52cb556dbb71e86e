import { describe, expect, it } from 'vitest';
import { seedRun } from '../../sim/campaign/seed.ts';
import type { Sent, Tampering } from '../../sim/campaign/tampering.ts';

const DAYS = 1;
/** Drawn by these seeds beside the faults of the shed: slow and failing disks, a network that is gone, hung channels. */
const SEEDS = [3, 13, 14, 42] as const;
/** The host told of nothing: then only disk and channels themselves could touch the pump. */
const UNTOLD: Tampering = { seen: () => ({ journal: { kind: 'well' }, channels: [] }) };

const commandsOf = (seed: number, disk: 'as drawn' | 'every write hangs'): readonly string[] => {
  const commands: string[] = [];
  seedRun({
    seed,
    days: DAYS,
    tampering: {
      ...UNTOLD,
      ...(disk === 'as drawn' ? {} : { disk: () => 'fails-before' as const, answer: () => 'never' as const }),
      sent: (sent: readonly Sent[]) => {
        commands.push(...sent.map(({ atMillis, command }) => `${atMillis} ${JSON.stringify(command)}`));
        return sent;
      },
    },
  });
  return commands;
};

describe('disk and network', () => {
  it.each(SEEDS)(
    'of seed %i may break from the first write on: every pump command comes in the same millisecond',
    { timeout: 60_000 },
    (seed) => {
      const commands = commandsOf(seed, 'as drawn');
      expect(commands.length).toBeGreaterThan(20);
      expect(commandsOf(seed, 'every write hangs')).toEqual(commands);
    },
  );
});
