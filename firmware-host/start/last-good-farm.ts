import { createHash } from 'node:crypto';
import { join, resolve } from 'node:path';
import { z } from 'zod';
import { forPump } from '../farm-file/for-pump.ts';
import { farmFromText, readFarmFile, type ReadFarmFile } from '../farm-file/read.ts';
import { tellProblems } from '../farm-file/tell.ts';
import { readYaml } from '../farm-file/yaml-document.ts';
import { readWhole } from '../storage/atomic-file.ts';
import { writeInTime } from '../storage/write-in-time.ts';

const kept = z.object({
  file: z.string(),
  sha256: z.string(),
  /** UTC, by the clock of this machine. */
  keptAt: z.iso.datetime(),
  text: z.string(),
  /** The last other name that the farm had; a start that is refused must not make it forgotten. */
  before: z.string().nullish(),
});
type Kept = z.infer<typeof kept>;

type Accepted = Extract<ReadFarmFile, { ok: true }>;

export type FarmToRun =
  | {
      readonly ok: true;
      readonly accepted: Accepted;
      /** What a person must hear; null where the farm file itself is in force and has been kept. */
      readonly warning: string | null;
      readonly from: 'file' | 'last-good';
      /** The name that the farm had before this one, or this one where it had no other; null where nothing is known. */
      readonly before: string | null;
    }
  /** Neither the file nor one that was good before can be used. */
  | { readonly ok: false; readonly says: string; readonly problems: readonly unknown[] };

const shaOf = (text: string): string => createHash('sha256').update(text).digest('hex');
const whyOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** One file for each path: of a file that cannot be read nobody knows which farm it is of. */
const keptFile = (root: string, path: string): string =>
  join(root, 'farm-files', `${shaOf(resolve(path)).slice(0, 16)}.json`);

const DIGITS = 12;

/** The name alone: the text may be refused by this version. */
const nameIn = (text: string): string | null => {
  const yaml = readYaml(text);
  const named = z.object({ farm: z.string() }).safeParse(yaml.ok ? yaml.raw : null);
  return named.success ? named.data.farm : null;
};

const keptBefore = async (file: string): Promise<Kept | null> => {
  try {
    const read = kept.safeParse(JSON.parse((await readWhole(file)) ?? 'null'));
    return read.success && read.data.sha256 === shaOf(read.data.text) ? read.data : null;
  } catch {
    // What cannot be read is written anew.
    return null;
  }
};

/** The name before this one, by what was kept. */
const nameBefore = ({ text, before = null }: Kept, name: string): string => {
  const last = nameIn(text) ?? name;
  return last === name ? (before ?? name) : last;
};

/** Keeps what is in force now, for a start at which the file is bad; why it could not, else null. */
const keep = async (file: string, now: Kept): Promise<string | null> => {
  try {
    await writeInTime(file, `${JSON.stringify(now)}\n`);
    return null;
  } catch (error) {
    return whyOf(error);
  }
};

interface LastGood {
  readonly accepted: Accepted;
  readonly sha256: string;
  readonly keptAt: string;
}

/** The last good text, whole and still good; else why there is none. */
const lastGood = async (root: string, path: string): Promise<LastGood | string> => {
  try {
    const text = await readWhole(keptFile(root, path));
    if (text === null) return 'none has been kept';
    const read = kept.safeParse(JSON.parse(text));
    if (!read.success) return 'what was kept of it cannot be read';
    const { sha256, keptAt } = read.data;
    if (shaOf(read.data.text) !== sha256) return 'what was kept of it is damaged';
    const farm = forPump(farmFromText(read.data.text, path));
    return farm.ok ? { accepted: farm, sha256, keptAt } : 'the one that was kept is refused by this version';
  } catch (error) {
    return `what was kept of it cannot be read: ${whyOf(error)}`;
  }
};

/** What is told after the words on the last good one. */
const RUNS_INSTEAD = 'Mend the file, see rillkeeper check, then start anew.';
const TOLD_INSTEAD = 'A host that runs goes on by it. Mend the file; see rillkeeper check.';

const instead = async (
  path: string,
  root: string,
  bad: Extract<ReadFarmFile, { ok: false }>,
  verb: 'runs' | 'is taken',
): Promise<FarmToRun> => {
  const problems = tellProblems(bad.file, bad.problems);
  const last = await lastGood(root, path);
  if (typeof last === 'string') {
    return {
      ok: false,
      says: `${problems}\nThere is no earlier good farm file to run instead: ${last}.`,
      problems: bad.problems,
    };
  }
  const then = verb === 'runs' ? RUNS_INSTEAD : TOLD_INSTEAD;
  return {
    ok: true,
    accepted: last.accepted,
    warning: `${problems}\nTHE FARM FILE IS NOT USED. The last good one ${verb} instead, kept at ${last.keptAt} (sha256 ${last.sha256.slice(0, DIGITS)}). ${then}`,
    from: 'last-good',
    before: last.accepted.farm.farm,
  };
};

/**
 * The farm of a run that must not end: of the file where a pump can be run by it, else the last good one of the same path
 * (fault 53, invariant I10). `root` is the folder of what belongs to no farm alone. Never throws.
 */
export const farmToRun = async (path: string, root: string, now: Date): Promise<FarmToRun> => {
  const read = await readFarmFile(path);
  const fit = forPump(read);
  if (!fit.ok) {
    const last = await instead(path, root, fit, 'runs');
    // What is right and only lacks a pump the run refuses in its own words.
    return read.ok && !last.ok
      ? { ok: true, accepted: read, warning: null, from: 'file', before: null }
      : last;
  }
  const file = keptFile(root, path);
  const { text } = fit;
  const last = await keptBefore(file);
  const before = last === null ? null : nameBefore(last, fit.farm.farm);
  const fresh: Kept = { file: resolve(path), sha256: shaOf(text), keptAt: now.toISOString(), text, before };
  const why = last?.text === text ? null : await keep(file, fresh);
  const warning =
    why === null
      ? null
      : `The farm file could not be kept for a start at which it is bad, and the run goes on: ${why}`;
  return { ok: true, accepted: fit, warning, from: 'file', before };
};

/** The same for whoever only looks at what a host did by it: nothing is kept, nor changed. */
export const goodFarmOf = async (path: string, root: string): Promise<FarmToRun> => {
  const read = await readFarmFile(path);
  return read.ok
    ? { ok: true, accepted: read, warning: null, from: 'file', before: null }
    : instead(path, root, read, 'is taken');
};
