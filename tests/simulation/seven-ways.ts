import { expect } from 'vitest';
import type { Way } from '../../sim/faults/failing.ts';
import type { AlarmKind } from '../../src/alarm/card.ts';
import type { Farm, Wiring } from '../../src/farm/farm.ts';
import type { Entry } from '../../src/journal/entry.ts';
import { againstTruth, type Held, type ReadingName } from './held-against-truth.ts';
import { clock } from './sheds.ts';
import { runWired, type WiredRun } from './wired-run.ts';

const MINUTE = 60_000;
/** Runs open with full benches; a first flood is confirmed before anything fails. */
const OPENS = 10.5;
/** In the middle of the second flood, and in the rest before it. */
export const IN_FLOOD = 11 + 20 / 60;
export const IN_REST = 11;
/** Three floods later. */
const ENDS = 13 + 10 / 60;
/** For sensors on which no flood hangs: past the next start. */
export const ENDS_SOON = 12 + 5 / 60;

export interface Site {
  readonly part: keyof Wiring;
  /** What is read of it. */
  readonly reads: readonly ReadingName[];
  readonly farm: Farm;
  readonly wiring: Wiring;
  /** Hour at which the runs end, where it is another. */
  readonly ends?: number;
}

/** What one way to fail comes to. What is left out here may not happen. */
export interface Expected {
  readonly way: Way;
  /** In an alarm, a verdict, the reason for a flood or the `why` of a reading; null when it cannot show itself. */
  readonly says: RegExp | null;
  /** Alarms of high priority that it raises, and why somebody may be sent to the shed for it. */
  readonly high?: { readonly alarms: readonly AlarmKind[]; readonly because: string };
  /** Why a false reading counts as good for longer than a minute. */
  readonly falseBecause?: string;
  /** How much less water a bench may hold at its driest than without the fault, and why any less. */
  readonly dryer?: { readonly by: number; readonly because: string };
  readonly from?: number;
  readonly ends?: number;
  readonly wiring?: Wiring;
}

interface Seen {
  readonly run: WiredRun;
  readonly held: Held;
  readonly after: readonly Entry[];
}

const seenIn = async (site: Site, expected: Expected | null, from: number, ends: number): Promise<Seen> => {
  const wiring = expected?.wiring ?? site.wiring;
  const { held, look } = againstTruth(site.farm, wiring);
  const fromMillis = clock(from);
  const run = await runWired({
    farm: site.farm,
    wiring,
    failing:
      expected === null ? [] : [{ part: site.part, way: expected.way, fromMillis, untilMillis: Infinity }],
    fromMillis: clock(OPENS),
    untilMillis: clock(ends),
    judgedFromMillis: fromMillis,
    looked: look,
  });
  // The run itself ends with a verdict of its own.
  const after = run.entries.filter(({ at }) => at >= fromMillis && at < clock(ends));
  return { run, held, after };
};

const calmRuns = new Map<string, Promise<Seen>>();
/** The same hours without a fault, from the earlier of the two moments on. */
export const calm = (site: Site, ends: number = site.ends ?? ENDS): Promise<Seen> => {
  const name = `${site.farm.evidence.returnFlow} ${ends}`;
  const run = calmRuns.get(name) ?? seenIn(site, null, IN_REST, ends);
  calmRuns.set(name, run);
  return run;
};

const raised = ({ after }: Seen): readonly Extract<Entry, { kind: 'alarm-raised' }>[] =>
  after.filter((entry) => entry.kind === 'alarm-raised');

/** The plan at the temperature of the air, and nothing else. */
const PLAIN_REASON = /^flood now: \d+\.\d °C (?:shortens|lengthens) the rest [^;]*$/;

/** What a person could read since the fault that is not read without it. */
const wordsOf = ({ after, held }: Seen, calmly: Seen): readonly string[] => [
  ...raised({ after } as Seen).map(({ text }) => text),
  ...after.flatMap((entry) =>
    entry.kind === 'verdict' && entry.verdict.kind !== 'confirmed' ? [entry.verdict.says] : [],
  ),
  ...after.flatMap((entry) =>
    entry.kind === 'flood-started' && !PLAIN_REASON.test(entry.reason) ? [entry.reason] : [],
  ),
  ...[...held.whys].filter((why) => !calmly.held.whys.has(why)),
];

/** The longest stretch from one stop of the pump to its next start since the fault, minutes. */
const longestRest = ({ run }: Seen, from: number, ends: number): number =>
  Math.max(
    ...run.floods.map(({ fromMillis, minutes }, place) => {
      const next = run.floods[place + 1]?.fromMillis ?? clock(ends);
      return next >= clock(from) ? (next - fromMillis) / MINUTE - minutes : 0;
    }),
  );

/** A look of the host, and what the noise of the air makes of a rest. */
const REST_SLACK_MINUTES = 2;
/** What a bench drinks in those two minutes of a hot noon: 17 points in a turn of 41 min. */
const HELD_SLACK = 0.01;
/** A contact must change eight times in a minute before it counts as loose. */
const FALSE_SECONDS_MAX = 60;

/** Runs one way to fail and holds it against what is expected of it. */
export const holds = async (site: Site, expected: Expected): Promise<void> => {
  const { from = IN_FLOOD, ends = site.ends ?? ENDS } = expected;
  const calmly = await calm(site, ends);
  const seen = await seenIn(site, expected, from, ends);
  const { run, held } = seen;
  // No bench comes near its floor, and the benches are no dryer than without the fault.
  expect(run.lowestTheta).toBeGreaterThan(site.farm.floors.stress);
  expect(run.lowestTheta).toBeGreaterThan(calmly.run.lowestTheta - (expected.dryer?.by ?? 0) - HELD_SLACK);
  if (expected.dryer !== undefined) expect(run.lowestTheta).toBeLessThan(calmly.run.lowestTheta);
  expect(longestRest(seen, from, ends)).toBeLessThan(longestRest(calmly, from, ends) + REST_SLACK_MINUTES);
  // It is told, or it is known that it cannot be.
  const words = wordsOf(seen, calmly);
  if (expected.says === null) expect(words).toEqual([]);
  else expect(words.filter((word) => expected.says!.test(word))).not.toEqual([]);
  const high = raised(seen).filter(({ priority }) => priority === 'high');
  expect(new Set(high.map(({ alarm }) => alarm))).toEqual(new Set(expected.high?.alarms ?? []));
  // Nothing false is shown as good.
  for (const [name, seconds] of Object.entries(held.falseSeconds)) {
    expect(site.reads, `${name} was false for ${seconds} s`).toContain(name);
    if (expected.falseBecause === undefined) expect(seconds).toBeLessThanOrEqual(FALSE_SECONDS_MAX);
  }
  if (expected.falseBecause !== undefined) {
    expect(Math.max(0, ...Object.values(held.falseSeconds))).toBeGreaterThan(FALSE_SECONDS_MAX);
  }
};
