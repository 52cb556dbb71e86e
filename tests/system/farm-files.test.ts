import { execFileSync } from 'node:child_process';
import { truncateSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { farmTextWith, linesOf, ownFolder, rillkeeper, written } from './rillkeeper.ts';

const folder = ownFolder();

/** Each breaks the example farm in one place; the problem is told at the line of that place. */
const broken: readonly (readonly [title: string, from: string, to: string, says: string])[] = [
  ['an unknown key', 'stretch: never', 'stretsh: never', 'Perhaps stretch was meant'],
  ['a word for a number', 'watts: 250', 'watts: many', 'found "many"; allowed 1 to 5000'],
  ['a number for a word', 'outsideWatcher: nobody', 'outsideWatcher: 7', 'found 7'],
  ['NaN', 'litres: 600', 'litres: .nan', 'NaN'],
  ['an infinite number', 'litres: 600', 'litres: .inf', 'found'],
  ['30 February', 'sown: 2026-06-26', 'sown: 2026-02-30', 'found "2026-02-30"'],
  ['a sowing a century ahead', 'sown: 2026-06-26', 'sown: 2126-06-26', '2026-07-14'],
  ['day parts that overlap by 30 min', "from: '08:00'", "from: '07:30'", 'overlap by 30 min'],
  ['a gap of 30 min between day parts', "from: '08:00'", "from: '08:30'", 'a gap of 30 min'],
];

describe('a farm file that cannot be trusted', () => {
  it.each(broken)('%s is refused with 4, at its line and column', async (_, from, to, says) => {
    const { text, line } = farmTextWith(from, to);
    const file = written(folder, 'farm.yaml', text);
    const { code, stdout, stderr } = await rillkeeper('check', file);
    expect(code).toBe(4);
    expect(stdout).toBe('');
    const told = linesOf(stderr).find((each) => each.includes(says));
    expect(told).toMatch(new RegExp(`^${file}:${line}:\\d+ {2}`));
    expect(stderr).toMatch(/\d problems?; the farm file was not accepted\.\n$/);
  });

  it('an empty list of benches is refused with 4', async () => {
    const { text } = farmTextWith('benches:\n', 'benches: []\nunused:\n');
    const { code, stderr } = await rillkeeper('check', written(folder, 'benchless.yaml', text));
    expect(code).toBe(4);
    expect(stderr).toContain('benches: found an empty list; allowed a list of 1 to 64 entries');
  });

  it('three mistakes are told at once, each at its own line, in the order of the lines', async () => {
    const places = [
      farmTextWith('watts: 250', 'watts: 0'),
      farmTextWith('channels: 12', 'channels: 0'),
      farmTextWith('maxCelsius: 36', 'maxCelsius: 96'),
    ];
    const text = places[0]!.text
      .replace('channels: 12', 'channels: 0')
      .replace('maxCelsius: 36', 'maxCelsius: 96');
    const file = written(folder, 'three.yaml', text);
    const { code, stderr } = await rillkeeper('check', file);
    expect(code).toBe(4);
    const told = linesOf(stderr).flatMap((line) => /three\.yaml:(\d+):/.exec(line)?.[1] ?? []);
    expect(told.map(Number)).toEqual(places.map(({ line }) => line));
  });

  it('--json gives the problems as data on stdout too, with line and column', async () => {
    const { text, line } = farmTextWith('watts: 250', 'watts: many');
    const { code, stdout } = await rillkeeper('check', written(folder, 'json.yaml', text), '--json');
    expect(code).toBe(4);
    expect(JSON.parse(stdout)).toMatchObject({
      ok: false,
      problems: [{ path: ['pump', 'watts'], found: '"many"', allowed: '1 to 5000', line, column: 10 }],
    });
  });
});

describe('a path that leads to no farm file', () => {
  const sparse = written(folder, 'sparse.yaml', '');
  truncateSync(sparse, 200_000_000);
  const pipe = join(folder, 'pipe');
  execFileSync('mkfifo', [pipe]);
  const rows: readonly (readonly [string, string, string])[] = [
    ['a missing file', join(folder, 'nowhere.yaml'), 'no file'],
    ['a folder', folder, 'a folder'],
    ['an empty file', written(folder, 'empty.yaml', ''), 'an empty file'],
    [
      'bytes that are no text',
      written(folder, 'bytes.yaml', new Uint8Array([0xff, 0xfe, 0x00, 0x80])),
      'no UTF-8',
    ],
    ['zero bytes', written(folder, 'zeros.yaml', new Uint8Array(64)), 'zero byte'],
    ['a sparse file of 200 MB', sparse, '200000000 bytes'],
    ['a pipe that nobody writes to', pipe, 'a device or pipe'],
  ];

  it.each(rows)('%s is answered within 2 s, with 4', async (_, file, found) => {
    const { code, stdout, stderr, seconds } = await rillkeeper('check', file);
    expect(code).toBe(4);
    expect(stdout).toBe('');
    expect(stderr).toContain(`${file}:1:1  found`);
    expect(stderr).toContain(found);
    expect(seconds).toBeLessThan(2);
  });

  it.each(['rehearse', 'run'])('%s refuses a sparse file of 200 MB like check does', async (command) => {
    const { code, stdout, stderr, seconds } = await rillkeeper(command, sparse);
    expect(code).toBe(4);
    expect(stdout).toBe('');
    expect(stderr).toBe((await rillkeeper('check', sparse)).stderr);
    expect(seconds).toBeLessThan(2);
  });
});
