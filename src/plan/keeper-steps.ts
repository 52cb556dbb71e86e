import { PARTS_MAX, type KeeperPart } from '../farm/table-bytes.ts';
import { itemAt } from '../units/assertion.ts';

/** What the keeper does in one short stretch of the clock. */
export type Step = Omit<KeeperPart, 'fromMinute'>;

const MINUTES_PER_DAY = 1440;

/** The shorter rest and the longer flood of two. */
export const wetter = (a: Step, b: Step): Step => ({
  restSeconds: Math.min(a.restSeconds, b.restSeconds),
  coolRestSeconds: Math.min(a.coolRestSeconds, b.coolRestSeconds),
  floodSeconds: Math.max(a.floodSeconds, b.floodSeconds),
});

const same = (a: Step, b: Step): boolean =>
  a.restSeconds === b.restSeconds &&
  a.coolRestSeconds === b.coolRestSeconds &&
  a.floodSeconds === b.floodSeconds;

/** The next step that is there, going round the day by `direction`. */
const nextKnown = (steps: readonly (Step | null)[], place: number, direction: 1 | -1): Step | null => {
  for (let far = 1; far < steps.length; far += 1) {
    const step = steps[(place + direction * far + steps.length) % steps.length] ?? null;
    if (step !== null) return step;
  }
  return null;
};

/** A step that is not there is as wet as the wetter of the nearest two that are. */
export const filled = (steps: readonly (Step | null)[]): readonly Step[] =>
  steps.flatMap((step, place) => {
    if (step !== null) return [step];
    const [before, after] = [nextKnown(steps, place, -1), nextKnown(steps, place, 1)];
    return before === null || after === null ? [] : [wetter(before, after)];
  });

/** Steps of one length round the day, as parts; a day that is the same throughout is one part from midnight. */
export const asParts = (steps: readonly Step[], stepMinutes: number): readonly KeeperPart[] => {
  const parts = steps.flatMap((step, place): readonly KeeperPart[] => {
    const before = itemAt(steps, (place + steps.length - 1) % steps.length);
    return same(before, step) ? [] : [{ fromMinute: place * stepMinutes, ...step }];
  });
  return parts.length > 0 ? parts : [{ fromMinute: 0, ...itemAt(steps, 0) }];
};

const minutesOf = (parts: readonly KeeperPart[], place: number): number => {
  const { fromMinute } = itemAt(parts, place);
  const end = itemAt(parts, (place + 1) % parts.length).fromMinute;
  return ((end - fromMinute + MINUTES_PER_DAY - 1) % MINUTES_PER_DAY) + 1;
};

/** Share of a time in which the pump runs. */
const runShare = ({ restSeconds, floodSeconds }: Step): number => floodSeconds / (restSeconds + floodSeconds);
const turns = ({ restSeconds, floodSeconds }: Step): number => 60 / (restSeconds + floodSeconds);

/** What joining a part with the one after it costs: minutes of pump in a day, and starts, each as good as a minute. */
const cost = (parts: readonly KeeperPart[], place: number): number => {
  const next = (place + 1) % parts.length;
  const joined = wetter(itemAt(parts, place), itemAt(parts, next));
  return [place, next].reduce((sum, at) => {
    const part = itemAt(parts, at);
    const more = runShare(joined) - runShare(part) + Math.max(0, turns(joined) - turns(part));
    return sum + minutesOf(parts, at) * more;
  }, 0);
};

/** A part and the one after it as one, from where the first began; the last part's next is the first. */
const joinedAt = (parts: readonly KeeperPart[], place: number): readonly KeeperPart[] => {
  const next = (place + 1) % parts.length;
  const { fromMinute } = itemAt(parts, place);
  const joined = { fromMinute, ...wetter(itemAt(parts, place), itemAt(parts, next)) };
  return parts.flatMap((part, at) => {
    if (at === place) return [joined];
    return at === next ? [] : [part];
  });
};

/** At most as many parts as a board holds: neighbours joined on their wet side, the cheapest first. */
export const fewEnough = (parts: readonly KeeperPart[]): readonly KeeperPart[] => {
  let fewer = parts;
  while (fewer.length > PARTS_MAX) {
    let cheapest = 0;
    for (let place = 1; place < fewer.length; place += 1) {
      if (cost(fewer, place) < cost(fewer, cheapest)) cheapest = place;
    }
    fewer = joinedAt(fewer, cheapest);
  }
  return fewer;
};
