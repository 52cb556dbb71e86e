import { callDueBy, firstFloodTold, isCalled } from '../drying.ts';
import type { InjectorName } from '../../faults/injectors.ts';
import type { Breach, Check, RunRecord, Stretch } from '../record.ts';
import { disturbed, HOST_AWAY, MINUTE, NO_WATER, stepAt, stretchesOf } from '../stretches.ts';
import { canBeTold } from '../told.ts';

/** With a way to water for so long in one piece a bench is flooded: the longest of the shortest rests, a flood, its tries. */
const REACH_MINUTES = 45;
/** A bench that is below its wilt floor by less than this is at it: the steps of the plant are a minute. */
const AT_FLOOR = 0.005;

interface Wilting {
  readonly bench: number;
  readonly atMillis: number;
  /** The longest stretch in one piece in which water could have been given, since the bench was last above its stress floor. */
  readonly way: Stretch | null;
  /** Since when there was none to a drop for as long: until then nobody need be called. */
  readonly lostMillis: number;
}

/** Each time a bench falls below its wilt floor, with the ways to water before it. */
const wiltings = (record: RunRecord): readonly Wilting[] => {
  const { truth, farm } = record;
  return truth.held.flatMap((held, bench) => {
    if (farm.benches[bench]?.plants === 0) return [];
    const found: Wilting[] = [];
    let wilted = false;
    held.forEach((share, step) => {
      const below = share < farm.floors.wilt - AT_FLOOR;
      if (below && !wilted) {
        let first = step;
        while (first > 0 && (held[first] ?? 1) < farm.floors.stress) first -= 1;
        const atMillis = truth.atMillis[step] ?? 0;
        const sinceMillis = truth.atMillis[first] ?? record.startMillis;
        const ways = stretchesOf(
          record,
          (at) => at >= first && at <= step && truth.way[bench]?.[at] === true,
        ).filter(({ fromMillis, untilMillis }) => untilMillis - fromMillis >= REACH_MINUTES * MINUTE);
        const lastWay = stretchesOf(record, (at) => at <= step && truth.drop[bench]?.[at] === true).findLast(
          ({ fromMillis, untilMillis }) => untilMillis - fromMillis >= REACH_MINUTES * MINUTE,
        );
        found.push({
          bench,
          atMillis,
          way: ways[0] ?? null,
          lostMillis: Math.min(atMillis, lastWay?.untilMillis ?? sinceMillis),
        });
      }
      wilted = below || (wilted && share < farm.floors.stress);
    });
    return found;
  });
};

/** Benches, by place, that wilted at any time. */
export const wilted = (record: RunRecord): readonly number[] => [
  ...new Set(wiltings(record).map(({ bench }) => bench)),
];

/** Whether no water could be given from one moment to the other: nothing has to be called about what is over. */
const stillGone = (record: RunRecord, bench: number, fromMillis: number, untilMillis: number): boolean =>
  untilMillis <= record.endMillis &&
  record.truth.drop[bench]?.slice(stepAt(record, fromMillis), stepAt(record, untilMillis)).includes(true) !==
    true;

/** What nothing shows while the pump rests. */
const SHOWS_IN_A_FLOOD: readonly InjectorName[] = ['pump-dead', 'pump-unplugged', 'relay-open'];
const SHOWS_AT_REST = [...HOST_AWAY, ...NO_WATER].filter((name) => !SHOWS_IN_A_FLOOD.includes(name));

/** When somebody must have been called: in half of the time, or with the first flood where nothing could show sooner. */
const dueBy = (record: RunRecord, { atMillis, lostMillis }: Wilting): { half: number; byMillis: number } => {
  const half = lostMillis + (atMillis - lostMillis) / 2;
  const span = { fromMillis: lostMillis, untilMillis: half };
  const byMillis = callDueBy(record, span);
  const inAFlood = disturbed(record, SHOWS_IN_A_FLOOD, span) && !disturbed(record, SHOWS_AT_REST, span);
  return { half, byMillis: inAFlood ? Math.max(byMillis, firstFloodTold(record, lostMillis)) : byMillis };
};

/** I1: no bench wilts while there is a way to water; where there is none somebody is called in half of the time. */
export const wet: Check = (record) =>
  wiltings(record).flatMap((wilting): readonly Breach[] => {
    const { bench, atMillis, way, lostMillis } = wilting;
    if (record.thirsty.includes(bench)) return [];
    const name = record.farm.benches[bench]?.name ?? `bench ${bench + 1}`;
    if (way !== null) {
      const minutes = Math.round((way.untilMillis - way.fromMillis) / MINUTE);
      return [
        {
          invariant: 'I1',
          atMillis,
          words: `${name} wilted though water could have been given for ${minutes} min`,
        },
      ];
    }
    const { half, byMillis } = dueBy(record, wilting);
    if (isCalled(record, lostMillis, byMillis) || !stillGone(record, bench, half, byMillis)) return [];
    if (!canBeTold(record, bench, { fromMillis: lostMillis, untilMillis: byMillis })) return [];
    const minutes = Math.round((atMillis - lostMillis) / MINUTE);
    return [
      {
        invariant: 'I1',
        atMillis,
        words: `${name} wilted ${minutes} min after the last way to water, and nobody was called ${byMillis > half ? `by ${Math.round((byMillis - lostMillis) / MINUTE)} min` : 'in half of that time'}`,
      },
    ];
  });

/** Benches that wilted while nothing that is fitted and whole could tell in half of the time: counted, for no host can know of them. */
export const unseenWiltings = (record: RunRecord): number =>
  wiltings(record).filter((wilting) => {
    const { way, bench, lostMillis } = wilting;
    const { half, byMillis } = dueBy(record, wilting);
    const late = !isCalled(record, lostMillis, half) && isCalled(record, lostMillis, byMillis);
    return way === null && (late || !canBeTold(record, bench, { fromMillis: lostMillis, untilMillis: half }));
  }).length;
