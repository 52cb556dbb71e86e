import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, it } from 'vitest';
import { seededDice } from '../../sim/dice.ts';
import { bookPath } from '../../firmware-host/storage/journal/book-path.ts';
import { bundled } from '../support/bundled.ts';

const KILLS = 200;
/** Kills in and before the opening of the book, by the start of the process. */
const START_MILLIS = 300;
/** Kills while it writes. */
const WRITING_MILLIS = 120;

interface Kill {
  /** Counted from the start of the process, or from its first acknowledged entry. */
  readonly from: 'start' | 'first-durable';
  readonly millis: number;
}

/** The last entry that the process called durable before it was killed; 0 when it called none so. */
const killedAfter = ({ from, millis }: Kill, writer: string, folder: string): Promise<number> =>
  new Promise((done, fail) => {
    const child = spawn(process.execPath, [writer, folder, resolve('dist/journal.mjs')], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    let said = '';
    let timer: NodeJS.Timeout | undefined;
    const killIn = (): void => {
      timer ??= setTimeout(() => child.kill('SIGKILL'), millis);
    };
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text;
      if (said.includes('durable ')) killIn();
    });
    child.on('error', fail);
    child.on('close', () => {
      done(Math.max(0, ...[...said.matchAll(/^durable (\d+)$/gm)].map(([, number]) => Number(number))));
    });
    if (from === 'start') killIn();
  });

interface Lane {
  readonly acknowledged: number;
  readonly withWrites: number;
}

interface Row {
  readonly seq: number;
  readonly kind: string;
  readonly reason: string | null;
}

/** Kills one writer after the other, all on one book, and looks at the book after each. */
const killed = async (kills: number, seed: number, writer: string): Promise<Lane> => {
  const folder = mkdtempSync(join(tmpdir(), 'rillkeeper-kills-'));
  const dice = seededDice(seed);
  let acknowledged = 0;
  let withWrites = 0;
  for (let kill = 0; kill < kills; kill += 1) {
    const when: Kill =
      kill % 3 === 0
        ? { from: 'start', millis: dice() * START_MILLIS }
        : { from: 'first-durable', millis: dice() * WRITING_MILLIS };
    const durable = await killedAfter(when, writer, folder);
    if (durable > 0) withWrites += 1;
    acknowledged = Math.max(acknowledged, durable);
    if (acknowledged === 0) continue;
    const db = new Sqlite(bookPath(folder), { readonly: true });
    const last = db.prepare('SELECT coalesce(max(seq), 0) FROM entries').pluck().get();
    db.close();
    expect(last).toBeGreaterThanOrEqual(acknowledged);
  }
  expect(readdirSync(folder).filter((name) => name.includes('damaged'))).toEqual([]);
  const db = new Sqlite(bookPath(folder));
  expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
  const rows = db
    .prepare<[], Row>("SELECT seq, kind, json ->> 'reason' AS reason FROM entries ORDER BY seq")
    .all();
  db.close();
  expect(rows.map(({ seq }) => seq)).toEqual(rows.map((_, place) => place + 1));
  // Of each process the first so many of its entries, in order: nothing in between is lost, nothing is there twice.
  const seen = new Map<string, number>();
  for (const { reason } of rows.filter(({ kind }) => kind === 'sip')) {
    const [pid = '', number] = (reason ?? '').split(':');
    expect(Number(number)).toBe((seen.get(pid) ?? 0) + 1);
    seen.set(pid, Number(number));
  }
  rmSync(folder, { recursive: true });
  return { acknowledged, withWrites };
};

it(
  `loses none of the acknowledged entries in ${KILLS} kills at random moments, and its numbers have no gap`,
  { timeout: 400_000 },
  async () => {
    const writer = await bundled('tests/support/journal-writer.ts');
    const lanes = await Promise.all([
      killed(KILLS / 2, 20_260_714, writer),
      killed(KILLS / 2, 20_260_715, writer),
    ]);
    const acknowledged = lanes.reduce((sum, lane) => sum + lane.acknowledged, 0);
    const withWrites = lanes.reduce((sum, lane) => sum + lane.withWrites, 0);
    process.stderr.write(
      `${KILLS} kills, ${withWrites} of them after writes; ${acknowledged} acknowledged entries\n`,
    );
    // The test is awake: many kills met a process that had written, and some thousand entries were at stake.
    expect(withWrites).toBeGreaterThan(KILLS / 2);
    expect(acknowledged).toBeGreaterThan(2000);
  },
);
