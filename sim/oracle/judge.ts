import type { Breach, Check, RunRecord } from './record.ts';
import { alarmTruth } from './invariants/alarm-truth.ts';
import { badInput } from './invariants/bad-input.ts';
import { boundedPump } from './invariants/bounded-pump.ts';
import { called } from './invariants/called.ts';
import { causes } from './invariants/causes.ts';
import { durableRecord } from './invariants/durable-record.ts';
import { holdKept } from './invariants/hold.ts';
import { isolation } from './invariants/isolation.ts';
import { journalTruth } from './invariants/journal-truth.ts';
import { leftStanding } from './invariants/left-standing.ts';
import { keptOwner } from './invariants/kept-owner.ts';
import { noSilentMiss } from './invariants/no-silent-miss.ts';
import { notGood } from './invariants/not-good.ts';
import { oneOwner } from './invariants/one-owner.ts';
import { plannedRests } from './invariants/planned-rests.ts';
import { recovery } from './invariants/recovery.ts';
import { returns } from './invariants/returns.ts';
import { timeKept } from './invariants/time-kept.ts';
import { toldInTime } from './invariants/told-in-time.ts';
import { waterGiven } from './invariants/water-given.ts';
import { wet } from './invariants/wet.ts';

/** Every invariant that shows in water and journal; I12, the same again, takes a second run. */
const CHECKS: readonly Check[] = [
  wet,
  causes,
  noSilentMiss,
  waterGiven,
  plannedRests,
  boundedPump,
  oneOwner,
  keptOwner,
  journalTruth,
  durableRecord,
  recovery,
  alarmTruth,
  returns,
  leftStanding,
  toldInTime,
  called,
  isolation,
  timeKept,
  badInput,
  notGood,
  holdKept,
];

/** All that a run has broken, in the order of time. */
export const judged = (record: RunRecord): readonly Breach[] =>
  CHECKS.flatMap((check) => check(record)).sort((one, other) => one.atMillis - other.atMillis);
