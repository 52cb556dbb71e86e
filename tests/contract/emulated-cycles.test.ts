import { beforeAll, describe, expect, it } from 'vitest';
import { createEmulatedBoard, type EmulatedBoard } from '../../sim/board/avr/emulated-board.ts';
import { demoWiring } from '../../sim/board/demo-wiring.ts';
import { seededDice } from '../../sim/dice.ts';
import { imageFor } from '../keeper/image.ts';
import { QUICK, quickFarm } from '../keeper/quick-farm.ts';
import { START } from '../support/plant.ts';
import { floodsOf } from './cycle-floods.ts';
import { cycledShed, IDENTITY, type CycledShed, type Ran } from './cycled-shed.ts';
import { keptTrouble, type Blow, type KeptTrouble } from './kept-trouble.ts';

const CYCLES = 200;
/** A rest, a flood, and the longest that any rule may put the next one off. */
const CALM_MILLIS = 1_800_000;
const REST_MILLIS = QUICK.restMinutes * 60_000;
/** A run of at least half of it is a flood: docs/board-protocol.md. */
const HALF_FLOOD_MILLIS = (QUICK.floodMinutes * 60_000) / 2;
/** Bounds of that farm, and the habit of its pump. */
const SHORTEST_REST_MILLIS = 4 * 60_000;
const LONGEST_ON_MILLIS = 10 * 60_000;
const SHORTEST_OFF_MILLIS = 30_000;
/** The pump is looked at four times a second. */
const LOOK_MILLIS = 250;
/** The keeper starts the pump twice in ten minutes at most. */
const STARTS_SPAN_MILLIS = 600_000;
/** After a start that was not followed by so much life a loss of power puts the next one off by as much. */
const PROVEN_LIFE_MILLIS = 300_000;
/** Bootloader, contacts that settle, shortest off, a lease, and a second each for their counting. */
const LATE_MILLIS = (1.6 + 15 + 30 + 10 + 4) * 1000;
/** A board does not count the seconds of its bootloader; the host lets the motor have its shortest off first. */
const TOLD_MILLIS = { 'kept-run': 10_000, 'flood-started': SHORTEST_OFF_MILLIS + 10_000 } as const;

const LIFE_ENDS: readonly Blow['kind'][] = ['power-on', 'power-off', 'open', 'reset'];

describe(`${CYCLES} times the cable is pulled out of an emulated board and put back, its power lost in each third`, () => {
  let shed: CycledShed;
  let board: EmulatedBoard;
  let trouble: KeptTrouble;
  let floods: readonly Ran[];

  const isFlood = ({ from, until }: Ran): boolean => until - from >= HALF_FLOOD_MILLIS;
  const lastBlow = (before: number, kinds: readonly Blow['kind'][] | null = null): number =>
    trouble.blows.findLast(({ kind, at }) => at <= before && (kinds?.includes(kind) ?? true))?.at ?? START;
  const lostPower = (from: number, until: number): boolean => lastBlow(until, ['power-off']) >= from;
  const hasPower = (at: number): boolean => lastBlow(at, ['power-on']) >= lastBlow(at, ['power-off']);
  const isByHost = ({ from }: Ran): boolean =>
    shed.journal.some(
      ({ kind, at }) =>
        (kind === 'flood-started' || kind === 'flood-retried') &&
        at <= from + LOOK_MILLIS &&
        from - at < TOLD_MILLIS['flood-started'],
    );
  /** Whether power was lost since a start, and no life in between was as long as one that proves the supply. */
  const isUnproven = (start: number, now: number): boolean => {
    const lives = trouble.blows.filter(({ kind, at }) => LIFE_ENDS.includes(kind) && at > start && at <= now);
    const ends = [start, ...lives.map(({ at }) => at)];
    return (
      lostPower(start, now) &&
      ends.slice(1).every((at, place) => at - (ends[place] ?? at) < PROVEN_LIFE_MILLIS + LATE_MILLIS)
    );
  };

  beforeAll(async () => {
    const farm = quickFarm();
    const wiring = { ...demoWiring(farm), identity: IDENTITY };
    shed = cycledShed(5, {
      farm,
      wiring,
      peer: (world) => {
        board = createEmulatedBoard({ flash: imageFor(farm, wiring), seed: 6, startMillis: START, world });
        return board;
      },
    });
    trouble = keptTrouble(shed, board, seededDice(7), CYCLES);
    await shed.runUntil(
      () =>
        trouble.unplugs() >= CYCLES && shed.time.timers.now() - (trouble.blows.at(-1)?.at ?? 0) > CALM_MILLIS,
    );
    floods = shed.ran.filter(isFlood);
  }, 300_000);

  it('has met handshakes, floods, stalls and resets, each 20 times or more', () => {
    expect(trouble.unplugs()).toBe(CYCLES);
    expect(Object.entries(trouble.counts()).filter(([, times]) => times < 20)).toEqual([]);
    expect(floods.length).toBeGreaterThan(40);
  });

  it('writes nothing to a port that was closed or pulled out', () => {
    expect(shed.usb.staleBytes()).toBe(0);
  });

  it('never runs longer than longest-on, nor starts again before shortest-off', () => {
    expect(shed.ran.filter(({ from, until }) => until - from > LONGEST_ON_MILLIS)).toEqual([]);
    const early = shed.ran.filter(({ from }, place) => {
      const before = shed.ran[place - 1];
      return before !== undefined && from - before.until < SHORTEST_OFF_MILLIS - LOOK_MILLIS;
    });
    expect(early).toEqual([]);
  });

  it('loses no flood: each that is owed starts 1 min after nothing stands against it at the latest', () => {
    /** From when on nothing stood against a start, as it was at an instant at which the pump rested. */
    const mayStart = (at: number, before: readonly Ran[]): number => {
      const last = before.at(-1) ?? { from: START, until: START };
      const judged = shed.journal.findLast((entry) => entry.kind === 'verdict' && entry.at < at)?.at ?? START;
      return Math.max(
        (before.findLast(isFlood)?.until ?? START) + REST_MILLIS,
        lastBlow(at - 1) + (isUnproven(last.from, at - 1) ? PROVEN_LIFE_MILLIS : 0),
        // Of the plan, which a host keeps also after a flood that was cut, or of which it knows nothing.
        Math.max(last.until, judged) + SHORTEST_REST_MILLIS,
        (before.at(-2)?.from ?? -Infinity) + STARTS_SPAN_MILLIS,
      );
    };
    const late = shed.ran.flatMap(({ from }, place) => {
      const before = shed.ran.slice(0, place);
      const rested = before.at(-1)?.until ?? START;
      // What happens to the cable is no excuse for what should have come before it.
      const blows = trouble.blows.filter(({ at }) => at > rested && at < from && hasPower(at - 1));
      return [...blows.map(({ at }) => at), from].filter((at) => at > mayStart(at, before) + LATE_MILLIS);
    });
    expect(late).toEqual([]);
  });

  it('ends no run before half of a flood but by a reset or with its power', () => {
    const cut = shed.ran.filter((run) => !isFlood(run));
    const byItself = cut.filter(
      ({ until }) =>
        until + LOOK_MILLIS - lastBlow(until + LOOK_MILLIS, ['open', 'reset', 'power-off']) > 2 * LOOK_MILLIS,
    );
    expect(byItself).toEqual([]);
    expect(cut.length).toBeGreaterThan(20);
  });

  it('doubles no flood but once after a loss of power', () => {
    const doubled = floods.filter((flood) => {
      const before = shed.ran[shed.ran.indexOf(flood) - 1];
      if (before === undefined || !isFlood(before) || lostPower(before.from, flood.from)) return false;
      // A host floods again after a flood that was cut in its second half; the board keeps the whole rest.
      const rest = isByHost(flood) ? SHORTEST_REST_MILLIS : REST_MILLIS;
      return flood.from - before.until < rest - LOOK_MILLIS;
    });
    expect(doubled).toEqual([]);
  });

  it('has one verdict of each flood in the journal, and each run that the board did not forget', () => {
    expect(floodsOf(shed.journal).filter(({ verdicts }) => verdicts.length !== 1)).toEqual([]);
    const found = shed.journal.filter(({ kind }) => kind === 'link-found');
    const remembered = shed.ran.filter(({ from, until }) => {
      const heard = found.find(({ at }) => at > until)?.at;
      return heard !== undefined && !lostPower(from, heard);
    });
    const untold = remembered.filter((run) => {
      const told = shed.journal.some(
        (entry) =>
          entry.kind === 'kept-run' && Math.abs(entry.startedAt - run.from) < TOLD_MILLIS['kept-run'],
      );
      return !told && !isByHost(run);
    });
    expect(untold).toEqual([]);
    expect(remembered.length).toBeGreaterThan(40);
  });

  it('never resets the board by its watchdog', () => {
    expect(board.chip.resets().watchdog).toBe(0);
  });
});
