import { mkdtemp, mkdir, open, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { farmFromText, readFarmFile, type ReadFarmFile } from '../../../firmware-host/farm-file/read.ts';
import { FILE_BYTES_MAX, unreadable } from '../../../firmware-host/farm-file/text.ts';

const RIBEIRA = fileURLToPath(new URL('../../../docs/examples/ribeira.yaml', import.meta.url));

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'farm-file-'));
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const reading = async (name: string, content: string | Uint8Array): Promise<ReadFarmFile> => {
  const path = join(folder, name);
  await writeFile(path, content);
  return readFarmFile(path);
};

const found = (read: ReadFarmFile): readonly string[] =>
  read.ok ? [] : read.problems.map((problem) => problem.found);

describe('readFarmFile', () => {
  it('accepts the example and can say where its values stand', async () => {
    const read = await readFarmFile(RIBEIRA);
    expect(read).toMatchObject({ ok: true, file: RIBEIRA });
    if (!read.ok) return;
    expect(read.farm.benches).toHaveLength(4);
    const lines = read.text.split('\n');
    const { line, column } = read.locate(['benches', 1, 'sown']);
    expect(lines[line - 1]!.slice(column - 1)).toBe(read.farm.benches[1]!.sown);
  });

  it.each([
    [process.getuid?.() ?? 0, /^Type: chmod u\+r '\/shed\/farm.yaml'$/],
    [54_321, /^Type: sudo chmod a\+r '\/shed\/farm.yaml'$/],
    [null, /^A folder above it may not be entered/],
  ])('says who may not read a file of owner %s, and what to type', (owner, advice) => {
    const read = unreadable(Object.assign(new Error('no'), { code: 'EACCES' }), '/shed/farm.yaml', owner);
    expect(read).toMatchObject({
      ok: false,
      problem: {
        found: `a file that ${userInfo().username} may not read`,
        advice: expect.stringMatching(advice) as string,
      },
    });
  });

  it('tells a tab alone, at its place, and none of what the reader then stumbles over', async () => {
    const text = (await readFile(RIBEIRA, 'utf8')).split('\n');
    const at = text.findIndex((line) => line.startsWith('    innerDiameterMillimetres:'));
    const tabbed = text.with(at, `\t${(text[at] ?? '').trimStart()}`).join('\n');
    const read = await reading('tabbed.yaml', tabbed);
    expect(read).toMatchObject({
      ok: false,
      problems: [{ found: 'a tab', advice: 'Write spaces in its place.', line: at + 1, column: 1 }],
    });
    expect(found(read)).toHaveLength(1);
  });

  it('refuses a file of 200 MB without reading it', async () => {
    const path = join(folder, 'large.yaml');
    const file = await open(path, 'w');
    await file.truncate(200_000_000);
    await file.close();
    const before = process.memoryUsage().arrayBuffers;
    const read = await readFarmFile(path);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(FILE_BYTES_MAX);
    expect(read).toMatchObject({
      ok: false,
      problems: [{ found: '200000000 bytes', allowed: 'at most 1000000 bytes', line: 1, column: 1 }],
    });
  });

  it('the limit is 1 MB exactly: one byte more is refused for its size', async () => {
    const filler = '#'.repeat(FILE_BYTES_MAX - 1);
    expect(found(await reading('limit.yaml', `${filler}\n`))).toEqual(['an empty value']);
    expect(found(await reading('over.yaml', `${filler}#\n`))).toEqual(['1000001 bytes']);
  });

  it.each([
    ['an empty file', '', 'an empty file'],
    ['blanks only', ' \n\n', 'an empty file'],
    ['bytes that are no UTF-8', new Uint8Array([0x66, 0x3a, 0xff, 0xfe]), 'bytes that are no UTF-8'],
    ['a zero byte', 'farm: a\0b', 'a zero byte'],
    ['a comment only', '# nothing yet\n', 'an empty value'],
    ['a list', '- farm\n', 'a list of 1'],
  ])('refuses %s', async (name, content, says) => {
    expect(found(await reading(`${name}.yaml`, content))).toEqual([says]);
  });

  it('refuses a folder and a path without a file', async () => {
    await mkdir(join(folder, 'folder.yaml'));
    expect(found(await readFarmFile(join(folder, 'folder.yaml')))).toEqual(['a folder']);
    expect(found(await readFarmFile(join(folder, 'none.yaml')))).toEqual(['no file']);
    expect(found(await readFarmFile(join(RIBEIRA, 'below.yaml')))).toEqual(['no file']);
    expect(found(await readFarmFile('/dev/zero'))).toEqual(['a device or pipe']);
  });

  it('a byte order mark before the text makes no difference', async () => {
    const text = await readFile(RIBEIRA, 'utf8');
    expect((await reading('marked.yaml', `\uFEFF${text}`)).ok).toBe(true);
  });
});

const SMALL = `farm: Small
place:
  latitudeDegrees: 37.1
  longitudeDegrees: -8
  elevationMetres: 180
  timeZone: Europe/Lisbon
pump: { headMetresMax: 9, litresPerMinuteMax: 90, watts: 250 }
tank: { litres: 600, usualLitres: 520, dryLitres: 60 }
benches:
  - name: Bench 1
    channels: 12
    lengthMetres: 6
    innerDiameterMillimetres: 75
    slopePercent: 2
    litresPerMinute: 10
    plants: 300
    crop: basil
    sown: 2026-06-26
dayPlan:
  - { part: day, from: '06:00', to: sunset, restMinutes: 25, floodMinutes: 20 }
  - { part: night, from: sunset, to: '06:00', floods: 4, floodMinutes: 20 }
temperatureRule: { referenceCelsius: 30, restPercentPerDegree: -4 }
bounds:
  restMinutesByDay: { shortest: 10, longest: 75 }
  restMinutesByNight: { shortest: 20, longest: 210 }
  floodMinutes: { shortest: 10, longest: 35 }
  startsPerHour: 4
evidence: { returnFlow: switch }
sensors: { airTemperature: true }
hotDay: { minCelsius: 21, maxCelsius: 36, humidityPercent: 45 }
deadBoard: pump-stops
outsideWatcher: nobody
`;

/** Line, column and path of each problem when lines of the small file are replaced by others. */
const placed = (...changes: readonly (readonly [from: string, to: string])[]): readonly string[] => {
  let text = SMALL;
  for (const [from, to] of changes) {
    expect(text).toContain(from);
    text = text.replace(from, to);
  }
  const read = farmFromText(text, 'small.yaml');
  return read.ok ? [] : read.problems.map(({ line, column, path }) => `${line}:${column} ${path.join('.')}`);
};

describe('farmFromText', () => {
  it('accepts the small file', () => {
    expect(placed()).toEqual([]);
  });

  it('points at the value, the unknown key, the parent of a missing key, and a flow-style value', () => {
    expect(placed(['slopePercent: 2', 'slopePercent: 200'])).toEqual(['14:19 benches.0.slopePercent']);
    expect(placed(['    plants: 300', '    plants: 300\n    colour: red'])).toEqual([
      '17:5 benches.0.colour',
    ]);
    expect(placed(['    channels: 12\n', ''])).toEqual(['10:5 benches.0.channels']);
    expect(placed(['  elevationMetres: 180\n', ''])).toEqual(['2:1 place.elevationMetres']);
    expect(placed(['deadBoard: pump-stops\n', ''])).toEqual(['1:1 deadBoard']);
    expect(placed(['watts: 250', 'watts: 0'])).toEqual(['7:58 pump.watts']);
    expect(placed(['channels: 12', 'channels:'])).toEqual(['11:5 benches.0.channels']);
  });

  it('tells every problem at once, in the order of the lines', () => {
    expect(
      placed(
        ['outsideWatcher: nobody', 'outsideWatcher: nobody\nfarm: Again'],
        ['maxCelsius: 36', 'maxCelsius: .nan'],
        ['dryLitres: 60', 'dryLitres: 530'],
        ["from: sunset, to: '06:00'", "from: sunset+00:10, to: '05:30'"],
        ['crop: basil', 'crop: chard'],
        ['channels: 12', 'channels: "12"'],
      ),
    ).toEqual([
      '8:51 tank.dryLitres',
      '11:15 benches.0.channels',
      '17:11 benches.0.crop',
      '21:26 dayPlan.1.from',
      '21:44 dayPlan.1.to',
      '30:39 hotDay.maxCelsius',
      '33:1 ',
    ]);
  });

  it('a list of benches that is empty is refused at the list', () => {
    const text = SMALL.replace(/benches:\n(?: .*\n)+/, 'benches: []\n');
    const read = farmFromText(text, 'small.yaml');
    expect(read).toMatchObject({ ok: false, problems: [{ line: 9, column: 10, found: 'an empty list' }] });
  });

  it('dates and clock times stay text, whatever version a %YAML line asks for', () => {
    const read = farmFromText(`%YAML 1.1\n---\n${SMALL}`, 'small.yaml');
    expect(read.ok && read.farm.benches[0]!.sown).toBe('2026-06-26');
  });

  it.each([
    ['a tab as indent', 'place:\n\tlatitudeDegrees: 37\n', '2:1', /Tabs are not allowed/],
    [
      'an open bracket',
      'benches: [1, 2\nfarm: x\n',
      '2:1',
      /must be sufficiently indented and end with a \]/,
    ],
    ['an alias of nothing', 'farm: *other\n', '1:1', /Unresolved alias/],
    ['two documents', 'farm: a\n---\nfarm: b\n', '2:1', /more than one document/],
    ['a tag', 'farm: !!binary aGVsbG8=\n', '1:7', /Unresolved tag/],
  ])('refuses %s with line and column', (_, text, place, words) => {
    const read = farmFromText(text, 'small.yaml');
    expect(read.ok).toBe(false);
    if (read.ok) return;
    const [first] = read.problems;
    expect(`${first!.line}:${first!.column}`).toBe(place);
    expect(first!.problem).toMatch(words);
  });

  it('refuses an alias bomb of 10^8 values and blocks nested 200,000 deep', () => {
    const layers = 'bcdefgh'.split('').map((name, place) => {
      const below = `*${'abcdefg'.charAt(place)}`;
      return `${name}: &${name} [${Array.from({ length: 10 }, () => below).join(',')}]`;
    });
    const bomb = ['a: &a [x,x,x,x,x,x,x,x,x,x]', ...layers].join('\n');
    for (const [text, words] of [
      [bomb, /repeats too much by alias/],
      ['['.repeat(200_000), /nested too deeply/],
    ] as const) {
      const read = farmFromText(text, 'small.yaml');
      expect(!read.ok && read.problems[0]!.problem).toMatch(words);
    }
  });

  it('60,000 unknown keys are refused, the first thousand by name', () => {
    const text = Array.from({ length: 60_000 }, (_, place) => `benche${place}: 1`).join('\n');
    const read = farmFromText(text, 'small.yaml');
    expect(!read.ok && read.problems.length).toBe(1000);
  });
});
