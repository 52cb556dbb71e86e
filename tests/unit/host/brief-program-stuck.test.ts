import { EventEmitter } from 'node:events';
import { expect, it, vi } from 'vitest';
import { saidBriefly } from '../../../firmware-host/brief-program.ts';

/** Programs that a signal does not end, as those that wait for a dead disk. */
const begun = vi.hoisted((): EventEmitter[] => []);
vi.mock('node:child_process', () => ({
  spawn: (): EventEmitter => {
    const child = Object.assign(new EventEmitter(), {
      stdout: null,
      kill: () => true,
      unref: () => undefined,
    });
    begun.push(child);
    return child;
  },
}));

it('a program that cannot even be killed is given up after its time and 0.2 s, and no other is begun until it has ended', async () => {
  const since = performance.now();
  expect(await saidBriefly('stuck', [], 100)).toBeNull();
  expect(performance.now() - since).toBeGreaterThan(290);
  expect(performance.now() - since).toBeLessThan(2000);
  expect(await saidBriefly('stuck', [], 100)).toBeNull();
  expect(begun).toHaveLength(1);
  begun[0]?.emit('close', null);
  const next = saidBriefly('stuck', [], 100);
  expect(begun).toHaveLength(2);
  begun[1]?.emit('close', 0);
  expect(await next).toBe('');
});
