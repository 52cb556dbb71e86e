import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  mkdirSync,
  readdirSync,
  rmSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { layProgram, programFolders, type ProgramFolders } from './program-folders.ts';
import { ownFolder, realFarmText, RIBEIRA, rillkeeper, STATE, written } from './rillkeeper.ts';

const folders = (): ProgramFolders => {
  const made = programFolders();
  layProgram(made.root, '0.2.0');
  return made;
};
const described = (folder: string, text: string): void => {
  writeFileSync(join(folder, 'package.json'), text);
};
const packageText = (node: string): string =>
  JSON.stringify({ name: 'rillkeeper', version: '0.2.0', engines: { node } });
const badFarm = written(
  ownFolder(),
  'bad.yaml',
  realFarmText('Bad').replace('floods:', 'flods:').replace('farm: Bad', 'farm: [1]'),
);

interface Row {
  readonly bad: string;
  /** Makes it so. */
  readonly make: (made: ProgramFolders) => void;
  readonly to?: string;
  readonly farm?: string;
  readonly code: number;
  readonly says: readonly string[];
}

const row = (
  bad: string,
  code: number,
  says: readonly string[],
  make: Row['make'],
  rest: Partial<Row> = {},
): Row => ({
  bad,
  code,
  says,
  make,
  ...rest,
});
const nothing = (): void => undefined;

const rows: readonly Row[] = [
  row('a folder that is not there', 4, ['there is no such folder'], nothing, { to: '0.3.0' }),
  row(
    'a file',
    4,
    ['it is a file; the folder with package.json, dist and node_modules is wanted'],
    ({ path }) => {
      writeFileSync(path('0.3.0'), '');
    },
    { to: '0.3.0' },
  ),
  row(
    'an empty folder',
    4,
    ['it holds no package.json'],
    ({ path }) => {
      mkdirSync(path('0.3.0'));
    },
    { to: '0.3.0' },
  ),
  row('a folder of another program', 4, ['it is the program other, not rillkeeper'], ({ path }) => {
    described(path('0.2.0'), packageText('>=20').replace('"rillkeeper"', '"other"'));
  }),
  row('a package.json that is half written', 4, ['does not say name, version and engines'], ({ path }) => {
    described(path('0.2.0'), packageText('>=20').slice(0, 30));
  }),
  row(
    'a program for a later Node.js',
    4,
    ['wants Node.js >=99.1', `this one is ${process.version}`],
    ({ path }) => {
      described(path('0.2.0'), packageText('>=99.1'));
    },
  ),
  row(
    'a folder without one of its threads',
    4,
    ['dist/journal.mjs is missing', 'not copied whole'],
    ({ path }) => {
      rmSync(path('0.2.0/dist/journal.mjs'));
    },
  ),
  row(
    'a folder with packages of another machine',
    4,
    ['its packages do not load on this machine; install them', 'wrong ELF class'],
    ({ path }) => {
      unlinkSync(path('0.2.0/node_modules'));
      mkdirSync(path('0.2.0/node_modules/better-sqlite3'), { recursive: true });
      writeFileSync(
        path('0.2.0/node_modules/better-sqlite3/index.js'),
        "throw new Error('wrong ELF class');",
      );
    },
  ),
  row('a program that fails at its check', 4, ['its check of', 'a made defect'], ({ path }) => {
    writeFileSync(path('0.2.0/dist/main.mjs'), "throw new Error('a made defect');");
  }),
  row('a farm file that is refused', 4, ['bad.yaml'], nothing, { farm: badFarm }),
  row('the folder in force', 2, ['that folder is in force already', 'Name another one'], nothing, {
    to: '0.1.0',
  }),
  row('the link itself', 2, ['that is a link or the name of one; name the folder itself'], nothing, {
    to: 'current',
  }),
  row(
    'a farm whose book is not there',
    4,
    ['There is no book at', 'RILLKEEPER_STATE=/var/lib/rillkeeper', '--no-backup'],
    nothing,
  ),
  row(
    'a folder in force that does not lie beside it',
    4,
    ['which does not lie beside it: there would be no way back', 'ln -sfn 0.1.0'],
    ({ path }) => {
      const elsewhere = join(ownFolder(), '0.1.0');
      mkdirSync(elsewhere);
      unlinkSync(path('current'));
      symlinkSync(elsewhere, path('current'));
    },
  ),
  row('a folder where the link should be', 4, ['is a file or folder, where a link', 'ln -s'], ({ path }) => {
    unlinkSync(path('current'));
    mkdirSync(path('current'));
  }),
];

/** Names, and where links lead. */
const layOf = ({ root, link }: ProgramFolders): readonly string[] =>
  readdirSync(root)
    .toSorted()
    .map((name) => `${name} ${link(name) ?? ''}`);

describe('an update that cannot be', () => {
  it.each(rows)('for $bad ends with $code, says why and what to do, and changes nothing', async (asked) => {
    const made = folders();
    asked.make(made);
    const before = layOf(made);
    const { code, stdout, stderr } = await rillkeeper(
      'update',
      made.path(asked.to ?? '0.2.0'),
      asked.farm ?? RIBEIRA,
    );
    expect({ code, stdout }).toEqual({ code: asked.code, stdout: '' });
    for (const words of asked.says) expect(stderr).toContain(words);
    expect(stderr).not.toMatch(/A defect in rillkeeper/);
    expect(layOf(made)).toEqual(before);
  });

  it('for want of rights ends with 4, names sudo, and changes nothing', () => {
    const made = folders();
    // Another's folder, and a root that may not write where it is not the owner (setpriv(1), capabilities(7)).
    chmodSync(made.root, 0o755);
    chownSync(made.root, 65_534, 65_534);
    const before = layOf(made);
    const update = [process.execPath, 'dist/main.mjs', 'update', made.path('0.2.0'), RIBEIRA];
    const { status, stderr } = spawnSync('setpriv', ['--bounding-set=-dac_override', ...update], {
      encoding: 'utf8',
      env: { ...process.env, RILLKEEPER_STATE: STATE },
    });
    expect(status).toBe(4);
    expect(stderr).toContain('no right to change the links in it. Run it as their owner (sudo)');
    expect(layOf(made)).toEqual(before);
  });
});

describe('an update', () => {
  it('of a farm without a book names both folders, says how to start anew, and is undone by the same with the older one', async () => {
    const made = folders();
    const there = await rillkeeper('update', made.path('0.2.0'), RIBEIRA, '--no-backup');
    expect({ code: there.code, current: made.link('current'), before: made.link('before') }).toEqual({
      code: 0,
      current: '0.2.0',
      before: '0.1.0',
    });
    expect(there.stderr).toContain('sudo systemctl restart rillkeeper');
    expect(there.stderr).toContain(`by hand: rillkeeper update ${made.path('0.1.0')}`);
    const back = await rillkeeper('update', made.path('0.1.0'), RIBEIRA, '--no-backup');
    expect({ code: back.code, current: made.link('current'), before: made.link('before') }).toEqual({
      code: 0,
      current: '0.1.0',
      // What has been in force for less than half an hour may be about to fail, and is no way back.
      before: '0.1.0',
    });
    expect(back.stderr).not.toContain('goes back');
  });

  it('of a link that was made with its whole path makes the way back by the name, and three failures go there', async () => {
    const made = folders();
    unlinkSync(made.path('current'));
    symlinkSync(made.path('0.1.0'), made.path('current'));
    const { code, stderr } = await rillkeeper('update', made.path('0.2.0'), RIBEIRA, '--no-backup');
    expect([code, made.link('current'), made.link('before')]).toEqual([0, '0.2.0', '0.1.0']);
    expect(stderr).toContain(`goes back to ${made.path('0.1.0')} by itself`);
    for (let failure = 1; failure <= 3; failure += 1) {
      spawnSync('sh', ['hardware-notes/way-back.sh', made.root, made.path('failures')], {
        env: { ...process.env, SERVICE_RESULT: 'exit-code' },
      });
    }
    expect([made.link('current'), made.link('went-back')]).toEqual(['0.1.0', '0.2.0']);
  });

  it('makes the one before a way back once that has been in force for an hour', async () => {
    const made = folders();
    await rillkeeper('update', made.path('0.2.0'), RIBEIRA, '--no-backup');
    made.prove();
    await rillkeeper('update', made.path('0.1.0'), RIBEIRA, '--no-backup');
    expect([made.link('current'), made.link('before')]).toEqual(['0.1.0', '0.2.0']);
  });

  it('where nothing is in force yet makes the link, and no way back', async () => {
    const made = folders();
    unlinkSync(made.path('current'));
    const { code, stderr } = await rillkeeper('update', made.path('0.2.0'), RIBEIRA, '--no-backup');
    expect([code, made.link('current'), made.link('before')]).toEqual([0, '0.2.0', null]);
    expect(stderr).not.toContain('goes back');
    // Nor is there a service on the machine of a test.
    expect(stderr).toContain(`${made.path('current')} leads to 0.2.0 in ${made.path('0.2.0')} from now on`);
    expect(stderr).toContain('No service was found on this computer');
    expect(stderr).not.toContain('starts from now on');
  });

  it('mends a link that leads nowhere', async () => {
    const made = folders();
    unlinkSync(made.path('current'));
    symlinkSync('gone', made.path('current'));
    const { code } = await rillkeeper('update', made.path('0.2.0'), RIBEIRA, '--no-backup');
    expect([code, made.link('current')]).toEqual([0, '0.2.0']);
  });
});
