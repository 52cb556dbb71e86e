import { beforeAll, describe, expect, it } from 'vitest';
import { crc16 } from '../../firmware-host/devices/keeper/crc.ts';
import { killed, tables, type Kills } from './kills.ts';
import type { Ran } from './kept-shed.ts';
import { QUICK } from './quick-farm.ts';

/** In each of the two ways to open a port; more by hand: `KILLS=1000`. */
const KILLS = Number(process.env['KILLS'] ?? 100) / 2;
const FLOOD_SECONDS = QUICK.floodMinutes * 60;
const REST_SECONDS = QUICK.restMinutes * 60;
const SHORTEST_REST_SECONDS = 4 * 60;
const LONGEST_ON_SECONDS = 10 * 60;
const LEASE_SECONDS = 10;
/** In which a board alone starts the pump twice at most: docs/board-protocol.md, "Floods of the keeper". */
const START_LIMIT_SECONDS = 600;
/** The bootloader, contacts that settle, the motor's shortest off, and a second each for their counting. */
const AFTER_RESET_SECONDS = 1.6 + 15 + 30 + 3;

const seconds = (from: number, until: number): number => (until - from) / 1000;
const length = ({ from, until }: Ran, end: number): number => seconds(from, until ?? end);

/** What holds however often the host is killed, in a shed whose board does or does not reset when its port opens. */
export const killedFacts = (resetsOnOpen: boolean, seed: number): void => {
  describe(`${KILLS} hosts killed, opening the port ${resetsOnOpen ? 'resets the board' : 'leaves the board alone'}`, () => {
    let kills: Kills;
    /** Seconds of a gap in which nobody held the pump. */
    let unheld: (from: number, until: number) => number;
    let floods: readonly Ran[];
    beforeAll(async () => {
      kills = await killed({ kills: KILLS, seed, resetsOnOpen });
      unheld = (from, until) => {
        const held = kills.holds.reduce(
          (sum, hold) => sum + Math.max(0, Math.min(hold.until, until) - Math.max(hold.from, from)),
          0,
        );
        return seconds(from, until) - held / 1000;
      };
      floods = kills.ran.filter((run) => length(run, kills.end) >= FLOOD_SECONDS / 2);
    }, 3_600_000);

    it('never runs the pump longer than longest-on', () => {
      expect(Math.max(...kills.ran.map((run) => length(run, kills.end)))).toBeLessThanOrEqual(
        LONGEST_ON_SECONDS,
      );
    });

    it('floods many times', () => {
      expect(floods.length).toBeGreaterThan(KILLS / 2);
    });

    it('never rests longer than the longest rest and the lease, but for a hold and a reset', () => {
      const most = REST_SECONDS + LEASE_SECONDS + (resetsOnOpen ? 2 * AFTER_RESET_SECONDS : 0);
      const rests = kills.ran.slice(1).map((run, index) => unheld(kills.ran[index]!.until!, run.from));
      expect(Math.max(...rests)).toBeLessThanOrEqual(most);
    });

    it('loses no flood', () => {
      // One that a hold or a reset has cut in its first half is made whole, and counts only then. A board alone starts the
      // pump twice in ten minutes at most, so that after every second cut it waits for these to be over.
      const reset = resetsOnOpen ? AFTER_RESET_SECONDS : 0;
      const cut = FLOOD_SECONDS / 2 + reset;
      const most = (cuts: number): number =>
        REST_SECONDS +
        LEASE_SECONDS +
        2 * reset +
        cuts * cut +
        Math.floor(cuts / 2) * Math.max(0, START_LIMIT_SECONDS - 2 * cut);
      const places = floods.map((run) => kills.ran.indexOf(run));
      const late = places.slice(1).flatMap((place, index) => {
        const before = places[index]!;
        const rest = unheld(kills.ran[before]!.until!, kills.ran[place]!.from);
        const cuts = place - before - 1;
        return rest > most(cuts) ? [{ rest, cuts, most: most(cuts) }] : [];
      });
      expect(late).toEqual([]);
    });

    it('doubles no flood', () => {
      const rests = floods.slice(1).map((run, index) => seconds(floods[index]!.until!, run.from));
      expect(Math.min(...rests)).toBeGreaterThanOrEqual(SHORTEST_REST_SECONDS - 1);
    });

    it('starts no pump while somebody holds it', () => {
      const inHold = kills.ran.filter(({ from }) =>
        // The hold is ordered at the host's next tick, and ends by the second on the board.
        kills.holds.some((hold) => from > hold.from + 2000 && from < hold.until - 3000),
      );
      expect(inHold).toEqual([]);
    });

    it('has the old table or the new one after each kill', () => {
      const known = tables().map(crc16);
      const seen = kills.killed.flatMap(({ tableCrcAfter }) =>
        tableCrcAfter === null ? [] : [tableCrcAfter],
      );
      expect(seen.length).toBeGreaterThan(KILLS / 3);
      expect(seen.filter((crc) => !known.includes(crc))).toEqual([]);
    });

    it('gives every flood of a host one verdict, but for the one that was under way at its end', () => {
      for (const { journal } of kills.killed) {
        const started = journal.filter(({ kind }) => kind === 'flood-started').length;
        const verdicts = journal.flatMap((entry) => (entry.kind === 'verdict' ? [entry.flood] : []));
        expect(new Set(verdicts).size).toBe(verdicts.length);
        expect(started - verdicts.length).toBeLessThanOrEqual(1);
      }
    });

    it('never resets the board by its watchdog', () => {
      expect(kills.shed.board.chip.resets().watchdog).toBe(0);
    });
  });
};
