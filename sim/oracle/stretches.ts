import type { InjectorName } from '../faults/injectors.ts';
import type { RunRecord, Stretch } from './record.ts';

export const MINUTE = 60_000;

/** Stretches of the steps for which `so` holds, from the moment before the first to the end of the last. */
export const stretchesOf = (
  { truth: { atMillis }, startMillis }: RunRecord,
  so: (step: number) => boolean,
): readonly Stretch[] => {
  const found: { fromMillis: number; untilMillis: number }[] = [];
  let open = false;
  atMillis.forEach((at, step) => {
    const stands = so(step);
    if (stands && !open) found.push({ fromMillis: atMillis[step - 1] ?? startMillis, untilMillis: at });
    const last = found.at(-1);
    if (stands && last !== undefined) last.untilMillis = at;
    open = stands;
  });
  return found;
};

/** What is broken of these kinds in a stretch that is widened by so many minutes at both ends. */
export const disturbed = (
  { broken }: RunRecord,
  names: readonly InjectorName[],
  { fromMillis, untilMillis }: Stretch,
  minutesBefore = 0,
  minutesAfter = 0,
): boolean =>
  broken.some(
    (fault) =>
      names.includes(fault.name) &&
      fault.fromMillis <= untilMillis + minutesAfter * MINUTE &&
      fromMillis - minutesBefore * MINUTE <= fault.untilMillis,
  );

/** What keeps a host that has its power from giving water or from knowing of it, beside what breaks in the shed. */
export const HOST_HINDERED: readonly InjectorName[] = [
  'link-lost',
  'link-flapping',
  'board-reset',
  'host-frozen',
  'hold',
];

/** The same, and the host without power. */
export const HOST_AWAY: readonly InjectorName[] = [...HOST_HINDERED, 'host-killed'];

export const CLOCKS_ASTRAY: readonly InjectorName[] = [
  'clock-ahead',
  'clock-back',
  'clock-years',
  'clock-unset',
];

/** What stands between a command and the pump. */
export const RELAY_BROKEN: readonly InjectorName[] = ['relay-open', 'relay-welded'];

/** Everything that keeps the pump from moving water though it is asked to. */
export const NO_WATER: readonly InjectorName[] = [
  'pump-dead',
  'pump-unplugged',
  'mains-lost',
  'relay-open',
  'filter-clogged',
  'filter-clogging',
  'leak',
  'top-up-stopped',
];

/** The number of steps made before a moment. */
export const stepAt = ({ truth: { atMillis } }: RunRecord, moment: number): number => {
  let [low, high] = [0, atMillis.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((atMillis[middle] ?? Infinity) <= moment) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** Litres that truly ran in a stretch, by what each of these flows was after each step, L/min. */
const litresOf = (
  record: RunRecord,
  flows: readonly (readonly number[])[],
  { fromMillis, untilMillis }: Stretch,
): number => {
  const { atMillis } = record.truth;
  let litres = 0;
  for (let step = stepAt(record, fromMillis); step < stepAt(record, untilMillis); step += 1) {
    const minutes = ((atMillis[step] ?? 0) - (atMillis[step - 1] ?? record.startMillis)) / MINUTE;
    for (const flow of flows) litres += (flow[step] ?? 0) * minutes;
  }
  return litres;
};

/** Litres that truly ran into all benches in a stretch. */
export const litresInto = (record: RunRecord, span: Stretch): number =>
  litresOf(record, record.truth.inflow, span);

/** Litres that truly came back from all benches in a stretch. */
export const litresBack = (record: RunRecord, span: Stretch): number =>
  litresOf(record, [record.truth.returning], span);

/** Litres a minute into all benches together. */
export const fullFlow = ({ farm }: RunRecord): number =>
  farm.benches.reduce((sum, bench) => sum + bench.litresPerMinute, 0);

/** A sensor that says from a quarter of the usual flow on whether water comes may say so from here on: what is usual may be less than the full flow, and it has its noise. */
const SEEPING_SHARE = 0.15;
/** It must say so twice, a minute apart, and is looked at every half minute. */
const SEEPING_MINUTES = 2;

/** So long after a stop nobody takes the return for that of a sensor that sticks; a minute less, for who stopped it may have counted from a little before. */
const SEEPING_FROM_MINUTES = 11;

/** Whether the channels drain so slowly that their return may still be seen long after the pump has stopped. */
export const seeps = (record: RunRecord, atMillis: number): boolean => {
  const restFrom = atMillis - SEEPING_FROM_MINUTES * MINUTE;
  if (
    record.truth.runs.some(({ fromMillis, untilMillis }) => fromMillis < atMillis && untilMillis > restFrom)
  )
    return false;
  const step = Math.max(1, stepAt(record, atMillis - SEEPING_MINUTES * MINUTE));
  return (record.truth.returning[step - 1] ?? 0) >= SEEPING_SHARE * fullFlow(record);
};

/** When water last truly came back, or ran into a bench, in a stretch; its start where none did. */
export const lastWater = (record: RunRecord, { fromMillis, untilMillis }: Stretch): number => {
  const { atMillis, inflow, returning } = record.truth;
  const least = SEEPING_SHARE * fullFlow(record);
  for (let step = stepAt(record, untilMillis) - 1; step >= stepAt(record, fromMillis); step -= 1) {
    if ((returning[step] ?? 0) >= least || inflow.some((bench) => (bench[step] ?? 0) > 0))
      return atMillis[step] ?? fromMillis;
  }
  return fromMillis;
};
