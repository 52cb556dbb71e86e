import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openJournal } from '../../firmware-host/storage/journal/journal.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { stateFolder } from '../../firmware-host/storage/state-folder.ts';
import { monotonicMillis, wallMillis, type Now } from '../../src/time/instant.ts';
import { ownFolder, realFarmText, rillkeeper, startedAmid, STATE, written } from './rillkeeper.ts';

const FOLDER = ownFolder();
const farm = (name: string): string => written(FOLDER, `${name}.yaml`, realFarmText(name));
const now = (): Now => ({
  monotonic: monotonicMillis(performance.now()),
  wall: wallMillis(Date.UTC(2026, 6, 14, 6)),
});

/** The state folder of a farm, as the program names it. */
const stateOf = async (file: string): Promise<string> => {
  const { stderr } = await rillkeeper('book', file);
  return /nothing in (\S+)\./.exec(stderr)?.[1] ?? '';
};

const bookBegun = async (folder: string): Promise<void> => {
  mkdirSync(folder, { recursive: true });
  const { client } = await openJournal(folder, { now });
  client.append([{ kind: 'started', farm: 'x', at: now().monotonic, wall: now().wall }]);
  await client.close();
};

/** Files of the machine and not of the farm's past, and one that a host left there. */
const MACHINE = {
  'secrets.env': 'RILLKEEPER_MAIL_PASSWORD=hush\n',
  'sim-pin-refused': 'x\n',
  'usb-port-off': '/sys/port1\n',
};
const machineIn = (folder: string): void => {
  mkdirSync(folder, { recursive: true });
  for (const [name, content] of Object.entries(MACHINE)) {
    writeFileSync(join(folder, name), content);
    chmodSync(join(folder, name), 0o600);
  }
};
const expectMachineIn = (folder: string): void => {
  for (const [name, content] of Object.entries(MACHINE)) {
    expect(readFileSync(join(folder, name), 'utf8')).toBe(content);
    expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
  }
};

describe('book --backup', () => {
  it('of a farm without a book ends with 1, names the folder, and writes nothing', async () => {
    const file = farm('Bare');
    const folder = await stateOf(file);
    const to = join(FOLDER, 'bare.rillkeeper');
    const { code, stderr } = await rillkeeper('book', file, '--backup', to);
    expect(code).toBe(1);
    expect(stderr).toContain(folder);
    expect(existsSync(to)).toBe(false);
  });
});

describe('a file that is to be written', () => {
  const file = farm('Moor');
  const [folder, none, there] = [
    ownFolder(),
    join(FOLDER, 'none', 'x.csv'),
    written(FOLDER, 'there', 'mine'),
  ];
  it.each([
    ['--backup', folder, `is a folder; name a file in it, such as ${join(folder, 'Moor.rillkeeper')}.`],
    ['--out', folder, `is a folder; name a file in it, such as ${join(folder, 'book.csv')}.`],
    ['--backup', none, `has no folder to stand in; make "${dirname(none)}" first.`],
    ['--out', none, `has no folder to stand in; make "${dirname(none)}" first.`],
    ['--backup', there, 'is there already, and it is left as it is; name another file.'],
    ['--out', there, 'is there already, and it is left as it is; name another file.'],
    ['--out', join(FOLDER, 'n'.repeat(300)), 'name too long'],
  ])('%s %s is refused', async (option, path, says) => {
    await bookBegun(await stateOf(file)).catch(() => undefined);
    const { code, stderr } = await rillkeeper('book', file, option, path);
    expect([code, stderr]).toEqual([2, expect.stringContaining(`${option}: ${JSON.stringify(path)} `)]);
    expect(stderr).toContain(says);
    expect([readFileSync(there, 'utf8'), existsSync(dirname(none)), readdirSync(folder)]).toEqual([
      'mine',
      false,
      [],
    ]);
  });
});

describe('restore', () => {
  it.each([
    ['no such file', 'there is no such file', join(FOLDER, 'nosuch')],
    ['a folder', 'it is a folder', FOLDER],
    ['a farm file', 'it is no backup of rillkeeper', farm('Fell')],
    ['an empty file', 'it is no backup of rillkeeper', written(FOLDER, 'empty', '')],
  ])('of %s says so, what is allowed, and nothing of SQLite', async (_, says, file) => {
    const { code, stderr } = await rillkeeper('restore', file);
    expect([code, stderr]).toEqual([
      4,
      `${file} is not restored, and nothing was changed: ${says}. Allowed is a file that "rillkeeper book FARM --backup FILE" has made, such as farm-july.rillkeeper, named with its folder.\n`,
    ]);
  });

  it('makes no folder for the farm file, and tells the time of the backup on the clock of the farm', async () => {
    const file = farm('Heath');
    const folder = await stateOf(file);
    await bookBegun(folder);
    const backup = join(FOLDER, 'heath.rillkeeper');
    expect((await rillkeeper('book', file, '--backup', backup)).code).toBe(0);
    rmSync(folder, { recursive: true });
    const none = join(FOLDER, 'nowhere', 'new.yaml');
    const refused = await rillkeeper('restore', backup, '--to', none);
    expect([refused.code, refused.stderr]).toEqual([2, expect.stringContaining('has no folder to stand in')]);
    expect([existsSync(dirname(none)), existsSync(folder)]).toEqual([false, false]);
    const to = join(FOLDER, 'heath-new.yaml');
    const { code, stderr } = await rillkeeper('restore', backup, '--to', to);
    expect(code).toBe(0);
    expect(stderr).toMatch(/Heath, as of \d{4}-\d\d-\d\d \d\d:\d\d: 1 entry/);
    // To be copied as a line: nothing stands behind it.
    expect(stderr.split('\n')).toContain(`  rillkeeper check ${to}`);
  });

  it('leaves passwords, the refused PIN and a port that is off where they are, with mode 600: on a new computer and with --replace', async () => {
    const file = farm('Hill');
    const folder = await stateOf(file);
    await bookBegun(folder);
    const backup = join(folder, 'before-0.1.0.rillkeeper');
    expect((await rillkeeper('book', file, '--backup', backup)).code).toBe(0);

    machineIn(folder);
    writeFileSync(join(folder, 'delivery.json'), '{}');
    const replaced = await rillkeeper('restore', backup, '--to', file, '--replace');
    expect(replaced.code).toBe(0);
    expectMachineIn(folder);
    expect(existsSync(bookPath(folder))).toBe(true);
    // A backup that lies there stays as well, and what was under way to people goes with the old book.
    expect(existsSync(backup)).toBe(true);
    expect(existsSync(join(folder, 'delivery.json'))).toBe(false);
    const before = readdirSync(STATE).filter((name) => name.startsWith(`${basename(folder)}.before-`));
    expect(before).toHaveLength(1);
    expect(readdirSync(join(dirname(folder), before[0] ?? '')).sort()).toContain('book.sqlite');

    const fresh = join(FOLDER, 'elsewhere.yaml');
    const other = farm('Dale');
    const elsewhere = await stateOf(other);
    await bookBegun(elsewhere);
    const second = join(FOLDER, 'dale.rillkeeper');
    expect((await rillkeeper('book', other, '--backup', second)).code).toBe(0);
    rmSync(elsewhere, { recursive: true });
    machineIn(elsewhere);
    expect((await rillkeeper('restore', second, '--to', fresh)).code).toBe(0);
    expectMachineIn(elsewhere);
    expect(existsSync(bookPath(elsewhere))).toBe(true);
  });

  it('by root gives all to the owner of the state folder, leaves the farm file to its own, and names the folder', async () => {
    const file = farm('Vale');
    await bookBegun(await stateOf(file));
    const backup = join(FOLDER, 'vale.rillkeeper');
    expect((await rillkeeper('book', file, '--backup', backup)).code).toBe(0);
    const [SERVICE, GROWER] = [65_534, 65_533];
    chownSync(file, GROWER, GROWER);
    chmodSync(file, 0o640);
    const root = ownFolder();
    chownSync(root, SERVICE, SERVICE);
    const folder = stateFolder('Vale', { RILLKEEPER_STATE: root });
    for (const time of [1, 2]) {
      const { code, stderr } = await startedAmid(
        { RILLKEEPER_STATE: root },
        'restore',
        backup,
        '--to',
        file,
        '--replace',
      ).ended;
      expect([time, code, stderr]).toEqual([time, 0, expect.stringContaining(`in the book in ${folder}`)]);
      expect(stderr).not.toContain('RILLKEEPER_STATE names');
    }
    const all = readdirSync(root, { recursive: true, encoding: 'utf8' });
    expect(all.some((name) => name.includes('.before-'))).toBe(true);
    expect(all.map((name) => [name, statSync(join(root, name)).uid])).toEqual(
      all.map((name) => [name, SERVICE]),
    );
    expect([statSync(file).uid, statSync(file).mode & 0o777]).toEqual([GROWER, 0o640]);
  });

  it('into a place of its own says where a service looks', async () => {
    const file = farm('Glen');
    await bookBegun(await stateOf(file));
    const backup = join(FOLDER, 'glen.rillkeeper');
    expect((await rillkeeper('book', file, '--backup', backup)).code).toBe(0);
    const env = { RILLKEEPER_STATE: '', XDG_STATE_HOME: ownFolder() };
    const { code, stderr } = await startedAmid(env, 'restore', backup, '--to', file, '--replace').ended;
    expect([code, stderr]).toEqual([0, expect.stringContaining('RILLKEEPER_STATE=/var/lib/rillkeeper')]);
  });
});
