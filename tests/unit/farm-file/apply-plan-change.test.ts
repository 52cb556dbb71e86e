import {
  chmodSync,
  chownSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import {
  applyPlanChange,
  checkedText,
  type KnownFarmFile,
} from '../../../firmware-host/farm-file/apply-plan-change.ts';
import type { PlanChange } from '../../../firmware-host/farm-file/plan-change.ts';
import { readFarmFile } from '../../../firmware-host/farm-file/read.ts';
import { FILE_BYTES_MAX } from '../../../firmware-host/farm-file/text.ts';

const RIBEIRA = readFileSync(
  fileURLToPath(new URL('../../../docs/examples/ribeira.yaml', import.meta.url)),
  'utf8',
);
const CHANGE: PlanChange = { parts: [{ part: 'night', restMinutes: 97.5 }], restPercentPerDegree: -4 };
const CHANGED = RIBEIRA.replace('floods: 3', 'restMinutes: 97.5').replace('PerDegree: -3', 'PerDegree: -4');
const STAYS = 'The farm file stays as it is.';

const folders: string[] = [];
const folder = (): string => {
  const made = mkdtempSync(join(tmpdir(), 'rillkeeper-apply-'));
  folders.push(made);
  return made;
};
afterAll(() => {
  for (const each of folders) rmSync(each, { recursive: true, force: true });
});

const known = async (path: string): Promise<KnownFarmFile> => {
  const read = await readFarmFile(path);
  if (!read.ok) throw new Error(read.problems[0]?.problem);
  return read;
};
const farmFile = async (text = RIBEIRA, name = 'farm.yaml'): Promise<KnownFarmFile> => {
  const path = join(folder(), name);
  writeFileSync(path, text);
  return known(path);
};

describe('applyPlanChange', () => {
  it('writes the numbers, keeps all else, and leaves nothing beside the file', async () => {
    const farm = await farmFile();
    const applied = await applyPlanChange(farm, CHANGE);
    expect(applied).toEqual({
      kind: 'written',
      says: `${farm.file}: the new numbers are written, and nothing else was touched. A host that runs keeps the old plan until it is started again.`,
    });
    expect(readFileSync(farm.file, 'utf8')).toBe(CHANGED);
    expect(readdirSync(join(farm.file, '..'))).toEqual(['farm.yaml']);
    const night = (await known(farm.file)).farm.dayPlan.at(-1);
    expect(night).toMatchObject({ pace: { kind: 'rest', restMinutes: 97.5 }, floodMinutes: 20 });
  });

  it('keeps a byte order mark and CRLF', async () => {
    const farm = await farmFile(`\uFEFF${RIBEIRA.replaceAll('\n', '\r\n')}`);
    await applyPlanChange(farm, CHANGE);
    expect(readFileSync(farm.file, 'utf8')).toBe(`\uFEFF${CHANGED.replaceAll('\n', '\r\n')}`);
  });

  it('writes nothing where the numbers stand already', async () => {
    const farm = await farmFile();
    const before = statSync(farm.file);
    const applied = await applyPlanChange(farm, { parts: [{ part: 'night', floods: 3 }] });
    expect(applied).toEqual({
      kind: 'nothing to write',
      says: `${farm.file}: these numbers stand there already.`,
    });
    expect(statSync(farm.file)).toEqual(before);
  });

  it('keeps the mode and the owner of the file', async () => {
    const farm = await farmFile();
    const isAdministrator = process.getuid?.() === 0;
    if (isAdministrator) chownSync(farm.file, 4321, 4322);
    chmodSync(farm.file, 0o640);
    const { uid, gid, mode, ino } = statSync(farm.file);
    expect((await applyPlanChange(farm, CHANGE)).kind).toBe('written');
    expect(statSync(farm.file)).toMatchObject({ uid, gid, mode });
    expect(statSync(farm.file).ino).not.toBe(ino);
  });

  it('follows a link to the file it leads to, and says which', async () => {
    const { file } = await farmFile();
    const link = join(folder(), 'link.yaml');
    symlinkSync(file, link);
    const applied = await applyPlanChange(await known(link), CHANGE);
    expect(applied.says).toContain(`${link} (${file}): the new numbers are written`);
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(readFileSync(file, 'utf8')).toBe(CHANGED);
  });

  it.each<[title: string, spoil: (file: string) => void, says: string]>([
    [
      'one comment was changed after it was read',
      (file) => {
        writeFileSync(file, `${RIBEIRA}# later\n`);
      },
      'The file was changed after it was read. Look at it, then begin again.',
    ],
    [
      'it became text that is no UTF-8',
      (file) => {
        writeFileSync(file, new Uint8Array([0xff, 0xfe]));
      },
      'Found bytes that are no UTF-8. The file is not plain text.',
    ],
    [
      'it is read-only',
      (file) => {
        chmodSync(file, 0o444);
      },
      'The file is read-only. If its plan may be changed, make it writable first.',
    ],
  ])('writes nothing when %s', async (_, spoil, says) => {
    const farm = await farmFile();
    spoil(farm.file);
    const before = readFileSync(farm.file);
    expect(await applyPlanChange(farm, CHANGE)).toEqual({
      kind: 'refused',
      says: `${farm.file}: ${says} ${STAYS}`,
    });
    expect(readFileSync(farm.file)).toEqual(before);
    expect(readdirSync(join(farm.file, '..'))).toEqual(['farm.yaml']);
  });

  it('says so when the file is gone, or a folder in its place', async () => {
    const farm = await farmFile();
    rmSync(farm.file);
    expect((await applyPlanChange(farm, CHANGE)).says).toContain('It cannot be written (ENOENT');
    mkdirSync(farm.file);
    expect((await applyPlanChange(farm, CHANGE)).says).toContain('Found a folder. This is not a file.');
    expect(readdirSync(farm.file)).toEqual([]);
  });

  it('leaves the old file whole when the new one cannot be made beside it', async () => {
    // The name itself is as long as a name may be, so none can be longer by an ending.
    const farm = await farmFile(RIBEIRA, `${'f'.repeat(250)}.yaml`);
    const applied = await applyPlanChange(farm, CHANGE);
    expect(applied.kind).toBe('refused');
    expect(applied.says).toMatch(/It cannot be written \(ENAMETOOLONG.*\)\. The farm file stays as it is\.$/);
    expect(readFileSync(farm.file, 'utf8')).toBe(RIBEIRA);
    expect(readdirSync(join(farm.file, '..'))).toHaveLength(1);
  });

  it('writes no file longer than the 1 MB that are read, so that a farm never locks itself out', async () => {
    const full = RIBEIRA + '#'.repeat(FILE_BYTES_MAX - Buffer.byteLength(RIBEIRA));
    const farm = await farmFile(full);
    expect((await applyPlanChange(farm, CHANGE)).says).toContain(
      'longer than the 1000000 bytes that are read',
    );
    expect(readFileSync(farm.file, 'utf8')).toBe(full);
    expect((await applyPlanChange(farm, { parts: [], restPercentPerDegree: -4 })).kind).toBe('written');
  });

  it.each<[title: string, change: PlanChange, says: string]>([
    [
      'a rest past the bounds',
      { parts: [{ part: 'night', restMinutes: 240 }] },
      'found 240; allowed 10 to 210',
    ],
    ['half a flood', { parts: [{ part: 'night', floods: 2.5 }] }, 'The number must be whole.'],
    ['a rule past the limits', { parts: [], restPercentPerDegree: -25 }, 'The number is too small.'],
    ['a part that is not there', { parts: [{ part: 'noon', floods: 2 }] }, 'found no part “noon”'],
  ])('refuses %s by the checks of the farm, and writes nothing', async (_, change, says) => {
    const farm = await farmFile();
    const applied = await applyPlanChange(farm, change);
    expect(applied.kind).toBe('refused');
    expect(applied.says).toContain(says);
    expect(applied.says.split('\n').at(-1)).toBe('1 problem; the farm file stays as it is.');
    expect(readFileSync(farm.file, 'utf8')).toBe(RIBEIRA);
  });
});

describe('checkedText', () => {
  it('refuses a text that would hold another farm than the change asks for', async () => {
    const farm = await farmFile();
    // As if the text were written in a way that nobody thought of.
    const other = { ...farm, farm: { ...farm.farm, tank: { ...farm.farm.tank, litres: 601 } } };
    const made = checkedText(other, CHANGE);
    expect(made.ok ? [] : made.problems.map(({ found, line }) => [found, line])).toEqual([
      ['another farm than the change asks for', farm.locate(['dayPlan']).line],
    ]);
    expect(checkedText(farm, CHANGE)).toEqual({ ok: true, text: CHANGED });
  });
});
