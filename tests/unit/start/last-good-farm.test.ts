import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { farmToRun } from '../../../firmware-host/start/last-good-farm.ts';
import { hangingWrite } from '../../support/hanging-write.ts';

const INVENTED = readFileSync('docs/examples/ribeira.yaml', 'utf8');
const GOOD = INVENTED.replace('invented:\n  today: 2026-07-14', '#');
const PINLESS = GOOD.replace(/^board:\n(?:(?: .*)?\n)+/m, '');
const BAD = GOOD.replace('shortestOffSeconds: 30', 'shortestOffSeconds: tired');
const NOW = new Date('2026-07-14T11:00:00Z');

interface Place {
  readonly file: string;
  readonly root: string;
}
const place = (): Place => {
  const own = mkdtempSync(join(tmpdir(), 'rillkeeper-farm-'));
  return { file: join(own, 'farm.yaml'), root: join(own, 'state') };
};
const begun = async ({ file, root }: Place, text: string): Promise<Awaited<ReturnType<typeof farmToRun>>> => {
  writeFileSync(file, text);
  return farmToRun(file, root, NOW);
};
const keptOf = ({ root }: Place): string =>
  join(root, 'farm-files', readdirSync(join(root, 'farm-files'))[0]!);

describe('the farm file at a start', () => {
  it('that is good is in force, and kept', async () => {
    const own = place();
    expect(await begun(own, GOOD)).toMatchObject({ ok: true, from: 'file', warning: null });
    expect(JSON.parse(readFileSync(keptOf(own), 'utf8'))).toMatchObject({ text: GOOD });
  });

  it('with another name for the farm tells the one that it had before, at later starts and after other changes too', async () => {
    const own = place();
    expect(await begun(own, GOOD)).toMatchObject({ before: null });
    const renamed = GOOD.replace('farm: Ribeira', 'farm: Ribeira Nova');
    expect(await begun(own, renamed)).toMatchObject({ from: 'file', before: 'Ribeira' });
    expect(await begun(own, renamed)).toMatchObject({ from: 'file', before: 'Ribeira' });
    expect(await begun(own, `${renamed}# Changed.\n`)).toMatchObject({ before: 'Ribeira' });
  });

  it('that is bad is not used: the last good one runs, and that is said with line and reason', async () => {
    const own = place();
    await begun(own, GOOD);
    const next = await begun(own, BAD);
    expect(next).toMatchObject({ ok: true, from: 'last-good', accepted: { text: GOOD, file: own.file } });
    const warning = next.ok ? next.warning : null;
    expect(warning).toMatch(/farm\.yaml:\d+:\d+/);
    expect(warning).toMatch(
      /THE FARM FILE IS NOT USED.*kept at 2026-07-14T11:00:00\.000Z \(sha256 [0-9a-f]{12}\)/,
    );
  });

  it.each([
    ['half written', GOOD.slice(0, GOOD.length / 2)],
    ['empty', ''],
    ['of zeros', '\0'.repeat(4096)],
  ])('%s is one that is bad', async (_, text) => {
    const own = place();
    await begun(own, GOOD);
    expect(await begun(own, text)).toMatchObject({ ok: true, from: 'last-good' });
  });

  it('that is gone is one that is bad', async () => {
    const own = place();
    await begun(own, GOOD);
    rmSync(own.file);
    expect(await farmToRun(own.file, own.root, NOW)).toMatchObject({ ok: true, from: 'last-good' });
  });

  it.each([
    ['that is still invented', INVENTED, /invented: found a farm that is invented/],
    ['without its pins', PINLESS, /board: found nothing; allowed the section "board:"/],
  ])(
    '%s is good and runs no pump: the last good one runs and stays the one that is kept',
    async (_, text, says) => {
      const own = place();
      await begun(own, GOOD);
      const next = await begun(own, text);
      expect(next).toMatchObject({ ok: true, from: 'last-good', accepted: { text: GOOD } });
      expect(next.ok ? next.warning : null).toMatch(says);
      expect(await begun(own, BAD)).toMatchObject({ ok: true, accepted: { text: GOOD } });
    },
  );

  it.each([
    ['that is still invented', INVENTED],
    ['without its pins', PINLESS],
  ])(
    '%s is left to the run to refuse where there is no good one before it, and is not kept',
    async (_, text) => {
      const own = place();
      expect(await begun(own, text)).toMatchObject({
        ok: true,
        from: 'file',
        accepted: { text },
        warning: null,
      });
      expect(await begun(own, BAD)).toMatchObject({ ok: false });
    },
  );

  it('that is bad where one was kept by which no pump can be run is refused', async () => {
    const own = place();
    await begun(own, GOOD);
    const kept = JSON.parse(readFileSync(keptOf(own), 'utf8')) as object;
    const sha256 = createHash('sha256').update(INVENTED).digest('hex');
    writeFileSync(keptOf(own), JSON.stringify({ ...kept, sha256, text: INVENTED }));
    const next = await begun(own, BAD);
    expect(next.ok ? '' : next.says).toContain('the one that was kept is refused by this version');
  });

  it('that is bad at the first start, with none before it, is refused with every problem', async () => {
    const next = await begun(place(), BAD);
    expect(next.ok).toBe(false);
    expect(next.ok ? '' : next.says).toMatch(/no earlier good farm file to run instead: none has been kept/);
    expect(next.ok ? [] : next.problems).not.toEqual([]);
  });

  it.each([
    ['damaged in one letter', (kept: string) => kept.replace('Ribeira', 'Ribeiro'), /is damaged/],
    ['half written', (kept: string) => kept.slice(0, 100), /cannot be read/],
    ['of something else', () => '{}', /cannot be read/],
  ])('is refused where what was kept is %s', async (_, harm, says) => {
    const own = place();
    await begun(own, GOOD);
    writeFileSync(keptOf(own), harm(readFileSync(keptOf(own), 'utf8')));
    const next = await begun(own, BAD);
    expect(next.ok ? '' : next.says).toMatch(says);
  });

  it('that is good runs after 2 s where the disk hangs that should keep it, with a word about it', async () => {
    const own = place();
    await begun(own, GOOD);
    const comeBack = hangingWrite(keptOf(own));
    const since = performance.now();
    const next = await begun(own, `${GOOD}# Changed.\n`);
    expect(next).toMatchObject({
      ok: true,
      from: 'file',
      warning: expect.stringContaining('the disk has not answered') as unknown,
    });
    expect(performance.now() - since).toBeLessThan(10_000);
    await comeBack();
  });

  it('that is good where nothing can be kept runs all the same, with a word about it', async () => {
    const own = place();
    writeFileSync(own.root, 'a file where a folder should be');
    expect(await begun(own, GOOD)).toMatchObject({
      ok: true,
      from: 'file',
      warning: expect.stringContaining('could not be kept') as unknown,
    });
  });
});
