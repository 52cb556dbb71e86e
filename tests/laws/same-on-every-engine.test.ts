import { createHash } from 'node:crypto';
import { readFileSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inNode, newerNode, versionOf } from '../engines/node.ts';
import { inQuickJs } from '../engines/quickjs.ts';
import { bundled } from '../support/bundled.ts';
import { engineExponentials, physicsOf } from '../support/portable-physics.ts';
import { SIXTY, statesOf } from '../support/sixty-days.ts';

// ECMA-262 6.1.6.1 and 21.3.2: + − × ÷, Math.sqrt and Math.floor are the same everywhere, Math.exp and its like are not.
const hash = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const bytesOf = (numbers: Float64Array): Uint8Array => new Uint8Array(numbers.buffer);

/** An interpreter needs half a second for a day; a flood is missed in these and one crop follows another. */
const INTERPRETED_DAYS = 12;

describe('the states of four benches and a tank at every hour, as SHA-256 of their bits', () => {
  let days: string;
  let physics: string;
  beforeAll(async () => {
    days = await bundled('tests/support/sixty-days.ts');
    physics = await bundled('tests/support/portable-physics.ts');
  });
  afterAll(() => {
    for (const bundle of [days, physics]) rmSync(dirname(bundle), { recursive: true });
  });

  it('are after 60 days the same in this Node, bundled or not, and in Node 24.21.0', () => {
    const newer = newerNode();
    expect(versionOf(newer)).toBe('v24.21.0');
    const own = hash(bytesOf(statesOf(SIXTY)));
    expect(hash(inNode(process.execPath, days, 'statesOf', SIXTY))).toBe(own);
    expect(hash(inNode(newer, days, 'statesOf', SIXTY))).toBe(own);
  });

  it('are after 12 days the same in QuickJS-NG 0.32.0', async () => {
    const other = await inQuickJs(readFileSync(days, 'utf8'), 'statesOf', INTERPRETED_DAYS);
    expect(hash(other)).toBe(hash(bytesOf(statesOf(INTERPRETED_DAYS))));
  });

  it('and sun, radiation and pipe of 400 days are the same in both', async () => {
    const own = hash(bytesOf(physicsOf(400)));
    expect(hash(inNode(newerNode(), physics, 'physicsOf', 400))).toBe(own);
    expect(hash(await inQuickJs(readFileSync(physics, 'utf8'), 'physicsOf', 400))).toBe(own);
  });

  it('while Math.exp of 1000 numbers is not the same in QuickJS, so that one use of it would show', async () => {
    const other = await inQuickJs(readFileSync(physics, 'utf8'), 'engineExponentials', 1000);
    expect(hash(other)).not.toBe(hash(bytesOf(engineExponentials(1000))));
  });
});
